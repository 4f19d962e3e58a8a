using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Reading;

/// <summary>Checks the names in braces of <c>say</c> and <c>do</c>.</summary>
internal static class Placeholders
{
    public static readonly string[] Known = ["{value}", "{limit}", "{band}"];

    /// <summary>One fault for the first brace that does not open or close a known name.</summary>
    public static void Check(TextNode text, string key, bool hasValue, Faults faults)
    {
        var known = hasValue ? Known : ["{band}"];
        var rest = text.Text.AsSpan();
        while (rest.IndexOfAny('{', '}') is var brace and >= 0)
        {
            rest = rest[brace..];
            var close = rest.IndexOf('}');
            var name = close < 0 ? rest.ToString() : rest[..(close + 1)].ToString();
            if (!known.Contains(name))
            {
                faults.Add(Codes.PlaceholderUnknown, text.At, $"{key} holds {Words.Quote(name)}.{Words.DidYouMean(name, known)}", Words.Listed(known));
                return;
            }

            rest = rest[name.Length..];
        }
    }

    /// <summary>False where every limit is of <c>missing</c>: then there is neither a value nor a limit to print.</summary>
    public static bool HaveValue(IEnumerable<Criterion> criteria)
    {
        var comparisons = criteria
            .SelectMany(criterion => Words.Bands.Select(band => criterion.Limits.For(band.Value)))
            .OfType<Limit>().Select(limit => limit.Comparison).ToList();
        return comparisons.Count == 0 || comparisons.Exists(comparison => comparison != Comparison.Missing);
    }
}
