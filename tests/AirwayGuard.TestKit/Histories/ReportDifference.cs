using System.Globalization;

namespace AirwayGuard.TestKit.Histories;

/// <summary>Says in lines how two reports differ; empty where they agree.</summary>
public static class ReportDifference
{
    /// <summary>Every field of a report that both hold; anchors of the expected report must be among the actual ones.</summary>
    public static IReadOnlyList<string> Between(ReferenceReport expected, ReferenceReport actual)
    {
        var lines = new List<string>();
        if (expected.Judged != actual.Judged)
        {
            lines.Add($"judged: expected {expected.Judged}, was {actual.Judged}");
        }

        Unmatched(expected.Findings.Select(Line), actual.Findings.Select(Line), lines);
        Unmatched(expected.CannotTell.Select(Line), actual.CannotTell.Select(Line), lines);
        if (lines.Count == 0)
        {
            foreach (var finding in expected.Findings)
            {
                if (!actual.Findings.Any(other => Line(other) == Line(finding) && !finding.About.Except(other.About, StringComparer.Ordinal).Any()))
                {
                    lines.Add($"about: none of {Line(finding)} names all of {string.Join(", ", finding.About)}");
                }
            }
        }

        return lines;
    }

    /// <summary>One finding without its resources, for comparing and for reading.</summary>
    public static string Line(ReportedFinding f) => string.Create(CultureInfo.InvariantCulture,
        $"{f.Check} {f.Verdict} {f.Severity} {f.Patient} {f.At.UtcDateTime:O}..{f.Latest.UtcDateTime:O} {f.AgeBand} {f.Value?.ToString("0.###", CultureInfo.InvariantCulture)} {f.Unit}{f.Code} x{f.Count} {f.State} {f.WithheldBy}");

    public static string Line(ReportedCannotTell c) => string.Create(CultureInfo.InvariantCulture,
        $"{c.Check} cannot-tell {c.Patient} {c.At.UtcDateTime:O} x{c.Count}");

    private static void Unmatched(IEnumerable<string> expected, IEnumerable<string> actual, List<string> lines)
    {
        var left = actual.ToList();
        foreach (var line in expected)
        {
            if (!left.Remove(line))
            {
                lines.Add("missing: " + line);
            }
        }

        lines.AddRange(left.Select(line => "unexpected: " + line));
    }
}
