using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads a severity: one word, or words with the marks above which they hold, in the limits' unit.</summary>
internal static class SeverityReader
{
    private const string Example = "Write a word, or marks that rise such as { moderate: 0.50, high: 0.70 }.";

    public static SeveritySteps Read(Entry entry, Comparison comparison, BandLimits limits, Faults faults)
    {
        var lowest = SeveritySteps.Always(Severity.Low);
        if (entry.Value is TextNode { IsBlank: false } word)
        {
            return TryWord(word.Text, word.At, faults, out var always) ? SeveritySteps.Always(always) : lowest;
        }

        if (entry.Value is not MapNode { Entries.Count: > 0 } map)
        {
            faults.Add(Codes.RuleSetShapeWrong, entry.Value.At, $"severity is {entry.Value.Shape}.", Example);
            return lowest;
        }

        if (comparison is not (Comparison.Above or Comparison.AtOrAbove))
        {
            faults.Add(Codes.SeverityStepsWrong, entry.At, "Steps are given beside a comparison that has no higher values.", "Write one word.");
            return lowest;
        }

        var own = Words.Bands.Select(band => limits.For(band.Value)).OfType<Limit>().ToList();
        if (own.Count == 0)
        {
            // Without a limit that could be read, marks could only be blamed for what is told of the limits.
            return lowest;
        }

        var unit = own[0].Unit;
        var steps = map.Entries
            .Select(step => Step(step, unit, faults))
            .OfType<(SeverityStep Step, Place At)>()
            .OrderBy(step => step.Step.Severity)
            .ToList();
        if (own.Exists(limit => limit.Unit != unit))
        {
            faults.Add(Codes.SeverityStepsWrong, entry.At, "The bands' limits have different units, so that a mark could mean either.");
            return lowest;
        }

        CheckRising(steps, own, faults);
        return steps.Count == 0 ? lowest : new SeveritySteps(steps[0].Step.Severity, [.. steps.Skip(1).Select(step => step.Step)]);
    }

    private static (SeverityStep Step, Place At)? Step(Entry entry, Unit unit, Faults faults)
    {
        var known = TryWord(entry.Key, entry.At, faults, out var severity);
        if (entry.Value is not TextNode text)
        {
            faults.Add(Codes.SeverityStepsWrong, entry.Value.At, $"A mark is {entry.Value.Shape}.", Example);
            return null;
        }

        var (number, written) = Amount.SplitAtSpace(text.Text.Trim());
        if (!Amount.TryNumber(number, out var mark) || (written.Length > 0 && written != Units.Ucum(unit)))
        {
            faults.Add(Codes.SeverityStepsWrong, text.At, $"The mark is {Words.Quote(text.Text)}.", $"Write a number, alone or with {Units.Ucum(unit)}.");
            return null;
        }

        return known ? (new SeverityStep(severity, mark), entry.At) : null;
    }

    private static void CheckRising(List<(SeverityStep Step, Place At)> steps, List<Limit> own, Faults faults)
    {
        for (var i = 1; i < steps.Count; i++)
        {
            if (steps[i].Step.Above <= steps[i - 1].Step.Above)
            {
                faults.Add(Codes.SeverityStepsWrong, steps[i].At, "A higher severity has a mark that is not higher.", Example);
            }
        }

        // The lowest word is that of every breach, so a mark above a limit would promise a breach without severity.
        if (steps.Count > 0 && own.Count > 0 && steps[0].Step.Above > own.Min(limit => limit.Low))
        {
            faults.Add(
                Codes.SeverityStepsWrong, steps[0].At, "The lowest severity begins above a band's limit.",
                $"The lowest word holds for every breach: its mark is at most {Words.Number(own.Min(limit => limit.Low))}.");
        }
    }

    private static bool TryWord(string word, Place at, Faults faults, out Severity severity)
    {
        var known = Words.TryFind(Words.Severities, word, out severity);
        if (!known)
        {
            var near = Words.DidYouMean(word, Words.Severities.Select(row => row.Word));
            faults.Add(Codes.RuleSeverityUnknown, at, $"The severity is {Words.Quote(word)}.{near}", Words.Listed(Words.Severities));
        }

        return known;
    }
}
