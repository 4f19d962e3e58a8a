using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Showing;

/// <summary>A limit, its comparison and its source's status in words.</summary>
internal static class LimitWords
{
    /// <summary>What breaches, saying of the limit itself on which side it lies.</summary>
    public static string Breach(Limit limit)
    {
        var value = Amount(limit.Low, limit.Unit);
        return limit.Comparison switch
        {
            Comparison.Above => $"above {value} ({value} itself is within)",
            Comparison.AtOrAbove => $"{value} or above ({value} itself breaches)",
            Comparison.Below => $"below {value} ({value} itself is within)",
            Comparison.AtOrBelow => $"{value} or below ({value} itself breaches)",
            Comparison.Outside => $"outside {Words.Number(limit.Low)} to {Amount(limit.High, limit.Unit)} (both ends are within)",
            Comparison.Is => $"is {limit.Code}",
            Comparison.IsNot => $"is not {limit.Code}",
            _ => "is not charted",
        };
    }

    /// <summary>As <see cref="Breach"/>, short, for where no side needs saying.</summary>
    public static string Short(Limit limit) => Breach(limit).Split(" (", 2)[0];

    public static string Amount(decimal amount, Unit unit) =>
        unit is Unit.One or Unit.Count or Unit.None ? Words.Number(amount) : $"{Words.Number(amount)} {Units.Ucum(unit)}";

    /// <summary>Plain words for how well the source is known.</summary>
    public static string Status(SourceStatus status) => status switch
    {
        SourceStatus.Cited => "cited: read in this source",
        SourceStatus.CommonPractice => "COMMON PRACTICE: no source found",
        SourceStatus.FromMemory => "FROM MEMORY: the source was not opened",
        _ => "DISPUTED: another publication of the same source prints another figure",
    };

    /// <summary>The statuses of a rule's limits that are not plainly cited, for a narrow column.</summary>
    public static string Marks(IEnumerable<Limit> limits)
    {
        var marks = limits.Select(limit => limit.Status).Distinct().Order().Where(status => status != SourceStatus.Cited)
            .Select(status => status switch
            {
                SourceStatus.CommonPractice => "common practice",
                SourceStatus.FromMemory => "from memory",
                _ => "disputed",
            });
        return string.Join(", ", marks);
    }
}
