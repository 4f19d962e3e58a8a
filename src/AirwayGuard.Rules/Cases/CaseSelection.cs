using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Cases;

/// <summary>The cases that hold for a rule set: its own, and those of another whose checks are worded the same here.</summary>
/// <param name="Borrowed">How many of them are of another set.</param>
/// <param name="Alike">Cases of other sets about checks that are not the same here: those that hold all the same help to prove what was not changed.</param>
internal sealed record CaseSelection(
    ImmutableArray<(string File, Case Case)> Cases, int Borrowed, ImmutableArray<(string File, Case Case)> Alike, ImmutableArray<RuleSetFault> Faults)
{
    /// <param name="files">The set's own, read.</param>
    public static CaseSelection Of(RuleSetReading reading, IReadOnlyList<CaseFile> files)
    {
        var faults = files.SelectMany(static file => file.Faults).ToList();
        var own = new List<(string File, Case Case)>();
        foreach (var file in files)
        {
            own.AddRange(file.Cases.Select(one => (file.File, one)));
            faults.AddRange(file.Cases.SelectMany(one => Unknown(reading, file.File, one)));
        }

        var others = files.Select(static file => file.Also).Where(static name => name.Length > 0).Concat(reading.StartsFrom).Distinct(StringComparer.Ordinal)
            .SelectMany(name => Others(name, reading)).ToList();
        var borrowed = others.Where(static one => one.IsSame).ToList();
        return new CaseSelection(
            [.. own, .. borrowed.Select(static one => (one.File, one.Case))], borrowed.Count,
            [.. others.Where(static one => !one.IsSame).Select(static one => (one.File, one.Case))], [.. faults]);
    }

    // A shipped set by its name, or a file beside the set's own.
    private static IEnumerable<(string File, Case Case, bool IsSame)> Others(string name, RuleSetReading reading)
    {
        var isShipped = ShippedRuleSets.Names.Contains(name, StringComparer.Ordinal);
        var path = isShipped ? name : Path.Combine(Path.GetDirectoryName(reading.File) ?? "", name);
        var theirs = (isShipped ? ShippedRuleSets.Load(name) : RuleSetLibrary.ReadFile(path)).RuleTexts;
        return (isShipped ? CaseLibrary.OfShipped(name) : CaseLibrary.Beside(path)).SelectMany(file => file.Cases
            .Where(one => Named(one).All(reading.RuleTexts.ContainsKey))
            .Select(one => (file.File, one, Named(one).All(check => theirs.TryGetValue(check, out var their) && reading.RuleTexts[check] == their))));
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
