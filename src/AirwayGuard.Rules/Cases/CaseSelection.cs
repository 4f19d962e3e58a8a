using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Cases;

/// <summary>The cases that hold for a rule set: its own, and those of another whose checks are worded the same here.</summary>
/// <param name="Borrowed">How many of them are of another set.</param>
internal sealed record CaseSelection(ImmutableArray<(string File, Case Case)> Cases, int Borrowed, ImmutableArray<RuleSetFault> Faults)
{
    /// <param name="files">The set's own, read.</param>
    /// <param name="startsFrom">Names of shipped sets that it starts from.</param>
    public static CaseSelection Of(RuleSetReading reading, IReadOnlyList<CaseFile> files, IEnumerable<string> startsFrom)
    {
        var faults = files.SelectMany(static file => file.Faults).ToList();
        var own = new List<(string File, Case Case)>();
        foreach (var file in files)
        {
            own.AddRange(file.Cases.Select(one => (file.File, one)));
            faults.AddRange(file.Cases.SelectMany(one => Unknown(reading, file.File, one)));
        }

        var borrowed = files.Select(static file => file.Also).Where(static name => name.Length > 0).Concat(startsFrom).Distinct(StringComparer.Ordinal)
            .Where(ShippedRuleSets.Names.Contains)
            .SelectMany(name => Borrow(name, reading))
            .ToList();
        return new CaseSelection([.. own, .. borrowed], borrowed.Count, [.. faults]);
    }

    private static IEnumerable<(string File, Case Case)> Borrow(string name, RuleSetReading reading)
    {
        var theirs = ShippedRuleSets.Load(name).RuleTexts;
        return CaseLibrary.OfShipped(name).SelectMany(file => file.Cases
            .Where(one => Named(one).All(check => reading.RuleTexts.TryGetValue(check, out var text) && theirs.TryGetValue(check, out var their) && text == their))
            .Select(one => (file.File, one)));
    }

    private static IEnumerable<string> Named(Case one) =>
        one.About.Concat(one.Finds.Select(finding => finding.Check)).Concat(one.CannotTell.Select(open => open.Check)).Distinct(StringComparer.Ordinal);

    private static IEnumerable<RuleSetFault> Unknown(RuleSetReading reading, string file, Case one)
    {
        var ids = reading.RuleSet!.Rules.Select(rule => rule.Id).ToList();
        foreach (var check in Named(one).Where(check => !ids.Contains(check)))
        {
            yield return new RuleSetFault(
                Codes.CaseCheckUnknown, file, one.At.Line, one.At.Column, $"The case names the check {Reading.Words.Quote(check)}.{Reading.Words.DidYouMean(check, ids)}", Codes.CaseCheckUnknown.Advice);
        }
    }
}
