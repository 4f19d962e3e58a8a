using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules;

/// <summary>The text of <c>rules list</c>: the set, its checks one a line, and the other sets that are shipped.</summary>
public static class RulesList
{
    /// <param name="reading">What <see cref="RuleSetLibrary.Resolve"/> gave; its faults are written to <paramref name="errors"/>.</param>
    /// <returns>0; 1 where the document has faults; 2 where it could not be opened.</returns>
    public static int Write(RuleSetReading reading, TextWriter output, TextWriter errors)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(errors);
        if (reading.RuleSet is not { } set)
        {
            return RulesLint.Report(reading, errors);
        }

        output.WriteLine($"{set.Name} {set.Version}: {reading.Title}");
        output.WriteLine($"sha256 {set.Sha256}");
        output.WriteLine();
        output.WriteLine(Row("check", "judges", "severity", "flag on", "mode", "limits to look at"));
        foreach (var rule in set.Rules)
        {
            var severity = string.Join(" to ", rule.Criteria
                .SelectMany(criterion => criterion.Severity.Steps.Select(step => step.Severity).Append(criterion.Severity.Base))
                .Distinct().Order().Select(value => Words.Of(Words.Severities, value)));
            var stands = rule.Stands == Standing.Once ? "-" : Words.Of(Words.Standings, rule.Stands);
            output.WriteLine(Row(
                rule.Id, string.Join(", ", rule.Judges.Select(kind => Words.Of(Words.Subjects, kind))), severity, stands,
                Words.Of(Words.Modes, rule.Mode), LimitWords.Marks(RuleLimits.Of(rule))));
        }

        output.WriteLine();
        output.WriteLine($"Shipped: {string.Join(", ", ShippedRuleSets.Names)} (default {ShippedRuleSets.Default}).");
        output.WriteLine(RulesPage.Caution);
        return 0;
    }

    private static string Row(params string[] cells) =>
        string.Format(CultureInfo.InvariantCulture, "{0,-31} {1,-15} {2,-17} {3,-10} {4,-7} {5}", cells).TrimEnd();
}
