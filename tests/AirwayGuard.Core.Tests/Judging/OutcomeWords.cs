using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What a check said of a chart, in a few words.</summary>
internal static class OutcomeWords
{
    /// <summary><c>open</c>, <c>cleared</c>, <c>no X</c> for what cannot be told, or <c>nothing</c>; several joined by commas.</summary>
    public static string Tells(this DerivedFindings found, string check)
    {
        var said = found.Findings.Where(one => one.Rule.Id == check).Select(one => one.State == FindingState.Cleared ? "cleared" : "open")
            .Concat(found.CannotTell.Where(one => one.Rule.Id == check).Select(one => "no " + string.Join(" or ", one.Missing.Select(MissingWords.Of))));
        return string.Join(", ", said) is { Length: > 0 } words ? words : "nothing";
    }
}
