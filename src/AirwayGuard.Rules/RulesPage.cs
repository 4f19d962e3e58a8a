using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules;

/// <summary>The text of <c>rules show ID</c>: one check, with each limit's comparison in words, its source and that source's status.</summary>
public static class RulesPage
{
    internal const string Caution = "Limits need local approval before use; local policy and licensed practice decide.";

    /// <returns>0; 1 where the document has faults; 2 where it could not be opened or holds no such check.</returns>
    public static int Write(RuleSetReading reading, string id, TextWriter output, TextWriter errors)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(id);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(errors);
        if (reading.RuleSet is not { } set)
        {
            return RulesLint.Report(reading, errors);
        }

        if (set.Find(id) is not { } rule)
        {
            var ids = set.Rules.Select(known => known.Id).ToList();
            errors.WriteLine($"{Codes.RuleUnknown.Id}  {set.Name}: there is no check {Words.Quote(id)}.{Words.DidYouMean(id, ids)} {Codes.RuleUnknown.Advice}");
            return 2;
        }

        Write(set, rule, new Origins(reading.Origins, rule.Id), output);
        return 0;
    }

    private static void Write(RuleSet set, Rule rule, Origins origins, TextWriter output)
    {
        output.WriteLine($"{rule.Id} ({set.Name} {set.Version}{origins.OfTheRule(set)})");
        output.WriteLine();
        Line(output, "Called", CheckNames.Of(rule));
        Line(output, "Judges", string.Join(", ", rule.Judges.Select(kind => Words.Of(Words.Subjects, kind))));
        foreach (var criterion in rule.Criteria)
        {
            Line(output, "Measures", $"{criterion.Measure.Id}: {criterion.Measure.Meaning}");
            Limits(output, "Breach", criterion.Limits, set, showNotJudged: true, (band, limit) => origins.Of(rule.Criteria.Length > 1 ? "anyOf" : Words.Of(Words.Comparisons, limit.Comparison), band));
            Line(output, "Severity", SeverityOf(criterion));
            if (criterion.Severity.Steps.Length > 0)
            {
                Line(output, "", $"  of the steps: {LimitWords.Status(SourceStatus.CommonPractice)}");
            }
        }

        foreach (var circumstance in rule.Tighten)
        {
            Line(output, "Stricter", $"where {string.Join(" and ", circumstance.When.Select(GuardOf))}, this holds too and the stricter counts");
            Limits(output, "", circumstance.Limits, set, showNotJudged: false, (_, _) => origins.Of("tighten"));
        }

        foreach (var allowance in rule.Allow)
        {
            Line(output, "Allowed", allowance.Limits is null
                ? $"altogether, with {allowance.Reason} charted as the reason"
                : $"with {allowance.Reason} charted as the reason, up to");
            if (allowance.Limits is { } looser)
            {
                Limits(output, "", looser, set, showNotJudged: false, (_, _) => origins.Of("allow"));
                continue;
            }

            Line(output, "", $"  {set.Sources.FirstOrDefault(source => source.Id == allowance.Source)?.Title} [{allowance.Source}]");
            Line(output, "", $"  {LimitWords.Status(allowance.Status)}");
        }

        if (!rule.Unless.IsEmpty)
        {
            Line(output, "Not judged", $"where {string.Join(" and ", rule.Unless.Select(GuardOf))}");
        }

        Conditions(output, rule);
        output.WriteLine();
        Line(output, "Says", rule.Say);
        foreach (var (when, say) in rule.SayInstead)
        {
            Line(output, "", $"{(when == Rule.Charted ? "where something is charted that does not count" : when)}: {say}");
        }

        Line(output, "Asks", rule.Do);
        Line(output, "Ends with", rule.ClearedBy);
        output.WriteLine();
        output.WriteLine(Caution);
    }

    private static void Conditions(TextWriter output, Rule rule)
    {
        if (rule.WithheldBy.Length > 0)
        {
            Line(output, "Withheld by", $"{rule.WithheldBy}, where that check says it already");
        }

        if (rule.NeedsAge)
        {
            Line(output, "Age", "needed: without one the answer is cannot-tell");
        }

        Line(output, "Flag on", rule.Stands switch
        {
            Standing.Once => "nothing: raises no Flag",
            Standing.Regulator => "the regulator the row names, else the patient's episode",
            _ => $"the {Words.Of(Words.Standings, rule.Stands)}",
        });
        Line(output, "Waits", rule.Waits == TimeSpan.Zero ? "not at all" : $"{InWords(rule.Waits)} for what is missing");
        if (rule.Holds > TimeSpan.Zero)
        {
            Line(output, "Holds", $"a setting streamed by a device must have stood {InWords(rule.Holds)}");
        }

        Line(output, "Mode", rule.Mode == Mode.Live ? "live" : "silent: judged and recorded, nothing leaves the service");
    }

    private static void Limits(TextWriter output, string label, BandLimits limits, RuleSet set, bool showNotJudged, Func<AgeBand, Limit, string> originOf)
    {
        foreach (var group in RuleLimits.Grouped(limits, originOf).Where(group => showNotJudged || group.Limit is not null))
        {
            Line(output, label, group.Limit is null ? $"{group.Bands}: not judged" : $"{group.Bands}: {LimitWords.Breach(group.Limit)}");
            if (group.Limit is { } limit)
            {
                var title = set.Sources.FirstOrDefault(source => source.Id == limit.Source)?.Title;
                Line(output, "", $"  {title} [{limit.Source}]");
                Line(output, "", $"  {LimitWords.Status(limit.Status)}");
                if (group.Origin.Length > 0)
                {
                    Line(output, "", $"  as {group.Origin} states it");
                }
            }
        }
    }

    private static string SeverityOf(Criterion criterion)
    {
        var unit = RuleLimits.OfBands(criterion.Limits).Select(limit => limit.Unit).FirstOrDefault();
        var steps = criterion.Severity.Steps.Select(step => $"{Words.Of(Words.Severities, step.Severity)} above {LimitWords.Amount(step.Above, unit)}");
        return string.Join("; ", steps.Prepend(Words.Of(Words.Severities, criterion.Severity.Base)));
    }

    private static string GuardOf(Guard guard) =>
        guard.Limit.Comparison == Comparison.Is
            ? $"{guard.Measure.Id} is {guard.Limit.Code}"
            : $"{guard.Measure.Id} {(guard.Limit.Comparison == Comparison.IsNot ? "" : "is ")}{LimitWords.Short(guard.Limit)}";

    private static string InWords(TimeSpan span) => span.Minutes == 0
        ? string.Create(CultureInfo.InvariantCulture, $"{(int)span.TotalHours} h")
        : string.Create(CultureInfo.InvariantCulture, $"{(int)span.TotalMinutes} min");

    private static void Line(TextWriter output, string label, string text) => output.WriteLine($"{label,-12} {text}".TrimEnd());
}
