using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Worker.Judging;

/// <summary>Who publishes a limit, in words, with its standing where it is not plainly cited.</summary>
internal static class LimitSource
{
    public static string Of(RuleSet rules, Limit limit)
    {
        var title = rules.Sources.FirstOrDefault(source => string.Equals(source.Id, limit.Source, StringComparison.Ordinal))?.Title ?? limit.Source;
        var status = Wording.Status(limit.Status);
        return status.Length == 0 ? title : $"{title} ({status})";
    }
}
