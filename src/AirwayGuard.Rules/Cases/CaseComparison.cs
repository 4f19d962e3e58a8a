using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Cases;

/// <summary>Holds what a case makes against what it expects. Of the checks it is about, and of those it names, nothing else may appear.</summary>
internal static class CaseComparison
{
    private const int ShownPlaces = 3;
    private const string Flagged = "with a Flag";
    private const string Unflagged = "without a Flag";

    public static CaseOutcome Of(Case one, DerivedFindings made)
    {
        var checks = one.About.Concat(one.Finds.Select(finding => finding.Check)).Concat(one.CannotTell.Select(open => open.Check)).ToHashSet(StringComparer.Ordinal);
        var differences = ImmutableArray.CreateBuilder<string>();
        Pair(
            one.Finds, [.. made.Findings.Where(finding => checks.Contains(finding.Rule.Id))],
            Fits, Say, Say, differences);
        Pair(
            one.CannotTell, [.. made.CannotTell.Where(open => checks.Contains(open.Rule.Id))],
            Fits, Say, Say, differences);
        return new CaseOutcome(one, differences.ToImmutable());
    }

    // Each expectation takes the first that fits and is not taken; the narrowest expectations choose first.
    private static void Pair<TExpected, TMade>(
        ImmutableArray<TExpected> expected, List<TMade> made, Func<TExpected, TMade, bool> fits, Func<TExpected, string> sayExpected, Func<TMade, string> sayMade,
        ImmutableArray<string>.Builder differences)
    {
        var lacking = new List<TExpected>();
        foreach (var one in expected.OrderByDescending(one => made.Count(candidate => !fits(one, candidate))))
        {
            var at = made.FindIndex(candidate => fits(one, candidate));
            if (at < 0)
            {
                lacking.Add(one);
            }
            else
            {
                made.RemoveAt(at);
            }
        }

        differences.AddRange(lacking.Select(one => "expected   " + sayExpected(one)));
        differences.AddRange(made.Select(one => (lacking.Count > 0 ? "came       " : "unexpected ") + sayMade(one)));
    }

    private static bool Fits(CaseFinding expected, DerivedFinding made)
    {
        var latest = made.Latest;
        return expected.Check == made.Rule.Id
            && (expected.At is null || expected.At == made.First.At)
            && (expected.Latest is null || expected.Latest == latest.At)
            && (expected.Severity is null || expected.Severity == latest.Severity)
            && (expected.Count is null || expected.Count == made.Occurrences.Length)
            && (expected.Band is null || expected.Band == latest.Band)
            && (expected.IsOpen is null || expected.IsOpen == (made.EndedAt == 0))
            && (expected.Code is null || string.Equals(expected.Code, latest.Code, StringComparison.Ordinal))
            && (expected.Value is not { } amount || Fits(amount, latest))
            && (expected.HasFlag is null || expected.HasFlag == made.Stands)
            && expected.IsWithheld == made.IsWithheld;
    }

    private static bool Fits(CaseAmount expected, Occurrence made) =>
        made.Value is { } value && decimal.Round(value, ShownPlaces) == decimal.Round(expected.Number, ShownPlaces)
        && (expected.Unit == Unit.None || expected.Unit == made.Unit);

    private static bool Fits(CaseOpen expected, DerivedCannotTell made) =>
        expected.Check == made.Rule.Id
        && (expected.At is null || expected.At == made.At)
        && (expected.Count is null || expected.Count == made.Count)
        && (expected.Missing is null || made.Missing.Any(missing => MissingWords.Of(missing) == expected.Missing));

    private static string Say(CaseFinding finding)
    {
        var words = new List<string> { finding.At is { } at ? $"{finding.Check} at {CaseTime.Say(at)}" : finding.Check };
        Add(words, finding.Latest is { } latest, () => $"latest {CaseTime.Say(finding.Latest!.Value)}");
        Add(words, finding.Severity is not null, () => Words.Of(Words.Severities, finding.Severity!.Value));
        Add(words, finding.Value is not null, () => LimitWords.Amount(finding.Value!.Value.Number, finding.Value.Value.Unit));
        Add(words, finding.Code is not null, () => finding.Code!);
        Add(words, finding.Count is not null, () => string.Create(CultureInfo.InvariantCulture, $"count {finding.Count}"));
        Add(words, finding.Band is not null, () => Words.Of(Words.Bands, finding.Band!.Value));
        Add(words, finding.IsOpen is not null, () => finding.IsOpen!.Value ? "open" : "cleared");
        Add(words, finding.IsWithheld, () => "withheld");
        Add(words, finding.HasFlag is not null, () => finding.HasFlag!.Value ? Flagged : Unflagged);
        return string.Join(", ", words);
    }

    private static string Say(DerivedFinding finding)
    {
        var latest = finding.Latest;
        var words = new List<string> { $"{finding.Rule.Id} at {CaseTime.Say(finding.First.At)}" };
        Add(words, latest.At != finding.First.At, () => $"latest {CaseTime.Say(latest.At)}");
        words.Add(Words.Of(Words.Severities, latest.Severity));
        Add(words, latest.Value is not null, () => LimitWords.Amount(decimal.Round(latest.Value!.Value, ShownPlaces), latest.Unit));
        Add(words, latest.Code is { Length: > 0 }, () => latest.Code!);
        words.Add($"breach: {LimitWords.Short(latest.Limit)}");
        words.Add(string.Create(CultureInfo.InvariantCulture, $"count {finding.Occurrences.Length}"));
        Add(words, latest.Band != AgeBand.Unknown, () => Words.Of(Words.Bands, latest.Band));
        words.Add(finding.EndedAt == 0 ? "open" : "cleared");
        Add(words, finding.IsWithheld, () => "withheld");
        words.Add(finding.Stands ? Flagged : Unflagged);
        return string.Join(", ", words);
    }

    private static string Say(CaseOpen open)
    {
        var words = new List<string> { open.At is { } at ? $"{open.Check} cannot be told at {CaseTime.Say(at)}" : $"{open.Check} cannot be told" };
        Add(words, open.Missing is not null, () => $"for lack of {open.Missing}");
        Add(words, open.Count is not null, () => string.Create(CultureInfo.InvariantCulture, $"count {open.Count}"));
        return string.Join(", ", words);
    }

    private static string Say(DerivedCannotTell open) => string.Create(
        CultureInfo.InvariantCulture,
        $"{open.Rule.Id} cannot be told at {CaseTime.Say(open.At)}, for lack of {string.Join(" and ", open.Missing.Select(MissingWords.Of))}, count {open.Count}");

    private static void Add(List<string> words, bool holds, Func<string> word)
    {
        if (holds)
        {
            words.Add(word());
        }
    }
}
