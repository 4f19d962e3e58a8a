using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Cases;
using AirwayGuard.Rules.Proving;

namespace AirwayGuard.Rules;

/// <summary>The text of <c>rules test</c>: the cases beside a rule set, judged by it, with what differs; and which limits no case holds.</summary>
public static class RulesTest
{
    public const int Holds = 0;
    public const int Fails = 1;
    public const int NotOpened = 2;

    /// <param name="reading">What <see cref="RuleSetLibrary.Resolve"/> gave.</param>
    /// <param name="caseFiles">Files of cases instead of those beside the rule set; empty for those.</param>
    /// <param name="prove">Also changes every limit by its smallest step, and names each change that no case notices.</param>
    /// <returns>0 where all cases hold (and, proved, every change is noticed); 1 where not; 2 where something could not be read.</returns>
    public static int Run(RuleSetReading reading, IReadOnlyList<string> caseFiles, bool prove, TextWriter output, TextWriter errors)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(caseFiles);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(errors);
        if (reading.RuleSet is not { } set)
        {
            RulesLint.Report(reading, errors);
            return NotOpened;
        }

        var files = caseFiles.Count > 0 ? [.. caseFiles.Select(CaseLibrary.ReadFile)] : FilesOf(reading);
        var selection = CaseSelection.Of(reading, files);
        foreach (var fault in selection.Faults)
        {
            errors.WriteLine(fault);
        }

        if (selection.Faults.Length > 0)
        {
            return NotOpened;
        }

        if (selection.Cases.IsEmpty)
        {
            errors.WriteLine($"{Codes.CasesMissing.Id}  {reading.File}: no cases were found. {Codes.CasesMissing.Advice}");
            return NotOpened;
        }

        var charts = selection.Cases.Select(static one => (one.File, one.Case, Chart: new CaseChart(one.Case))).ToImmutableArray();
        var failed = Judge(set, charts, output);
        var own = selection.Cases.Length - selection.Borrowed;
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{set.Name} {set.Version}: {selection.Cases.Length - failed} of {selection.Cases.Length} cases hold ({own} of its own{(selection.Borrowed > 0 ? $", {selection.Borrowed} of other sets, about checks that are the same here" : "")})"));
        if (failed > 0 || !prove)
        {
            return failed > 0 ? Fails : Holds;
        }

        // What the set did not change of a check is held by the other set's cases of it that hold here too.
        var alike = selection.Alike.Select(static one => (one.File, one.Case, Chart: new CaseChart(one.Case))).Where(one => CaseComparison.Of(one.Case, one.Chart.Judge(set)).Holds);
        return Prove(set, [.. charts, .. alike], output);
    }

    /// <summary>Whether there are files of cases with a rule set, sound or not.</summary>
    public static bool HasCases(RuleSetReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return FilesOf(reading).Length > 0;
    }

    private static ImmutableArray<CaseFile> FilesOf(RuleSetReading reading) =>
        ShippedRuleSets.Names.Contains(reading.File, StringComparer.Ordinal) ? CaseLibrary.OfShipped(reading.File) : CaseLibrary.Beside(reading.File);

    private static int Judge(RuleSet set, ImmutableArray<(string File, Case Case, CaseChart Chart)> charts, TextWriter output)
    {
        var failed = 0;
        foreach (var (file, one, chart) in charts)
        {
            var outcome = CaseComparison.Of(one, chart.Judge(set));
            if (outcome.Holds)
            {
                continue;
            }

            failed++;
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{file}:{one.At.Line}: {one.Name}"));
            foreach (var difference in outcome.Differences)
            {
                output.WriteLine($"    {difference}");
            }

            output.WriteLine();
        }

        return failed;
    }

    private static int Prove(RuleSet set, ImmutableArray<(string File, Case Case, CaseChart Chart)> charts, TextWriter output)
    {
        var (tried, unnoticed) = Unnoticed(set, charts);
        foreach (var mutant in unnoticed)
        {
            output.WriteLine($"    no case notices  {mutant.Check}: {mutant.What}");
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{set.Name} {set.Version}: {tried - unnoticed.Count} of {tried} small changes to its rules are noticed by a case"));
        return unnoticed.Count > 0 ? Fails : Holds;
    }

    private static (int Tried, List<RuleMutant> Unnoticed) Unnoticed(RuleSet set, ImmutableArray<(string File, Case Case, CaseChart Chart)> charts)
    {
        var byCheck = charts
            .SelectMany(one => one.Case.About.Concat(one.Case.Finds.Select(finding => finding.Check)).Concat(one.Case.CannotTell.Select(open => open.Check)).Distinct(StringComparer.Ordinal).Select(check => (check, one)))
            .ToLookup(pair => pair.check, pair => pair.one, StringComparer.Ordinal);
        var (tried, unnoticed) = (0, new List<RuleMutant>());
        foreach (var mutant in RuleMutants.Of(set))
        {
            tried++;
            if (byCheck[mutant.Check].All(one => CaseComparison.Of(one.Case, one.Chart.Judge(mutant.Set)).Holds))
            {
                unnoticed.Add(mutant);
            }
        }

        return (tried, unnoticed);
    }
}
