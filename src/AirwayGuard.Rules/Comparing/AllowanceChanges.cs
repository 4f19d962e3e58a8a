using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>What a charted reason allows.</summary>
internal static class AllowanceChanges
{
    private const string Altogether = "allowed altogether";

    public static IEnumerable<Change> Of(Side from, Side to)
    {
        var reasons = from.Rule.Allow.Concat(to.Rule.Allow).Select(allowance => allowance.Reason).Distinct(StringComparer.Ordinal);
        return reasons.SelectMany(reason => CellChanges.Of(
            Aspects.Allowance, Subject(CheckNames.Of(to.Rule), reason), band => CellOf(from, reason, band), band => CellOf(to, reason, band)));
    }

    /// <summary>One reason may stand for several ages with a limit each.</summary>
    public static Cell CellOf(Side side, string reason, AgeBand band)
    {
        foreach (var allowance in side.Rule.Allow.Where(one => one.Reason == reason))
        {
            if (allowance.Limits is null)
            {
                return Cell.Open(Altogether, new Ground([], allowance.Source, side.Title(allowance.Source), allowance.Status));
            }

            if (allowance.Limits.For(band) is { } limit)
            {
                return Cell.Of(limit, side.Rule.Criteria[0].Measure, side);
            }
        }

        return Cell.Closed("no allowance");
    }

    public static string Subject(string name, string reason) => $"{name} with {ClinicalWords.Code(reason)} charted as the reason";
}
