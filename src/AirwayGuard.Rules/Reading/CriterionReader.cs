using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads what a rule measures and what breaches: one criterion in the rule itself, or several under <c>anyOf</c>.</summary>
internal sealed class CriterionReader(Faults faults, LimitReader limits)
{
    public ImmutableArray<Criterion> Read(Keys rule, ImmutableArray<SubjectKind> judges)
    {
        if (rule.Find("anyOf") is not { } anyOf)
        {
            return One(rule, judges, rule.Find("severity"), "A rule") is { } only ? [only] : [];
        }

        foreach (var key in ComparisonKey.All.Add("measure").Where(rule.Has))
        {
            faults.Add(Codes.RuleSetShapeWrong, rule.Find(key)!.At, $"{key} stands beside anyOf.", "Put it into an item of anyOf.");
        }

        if (anyOf.Value is not ListNode { Items.Count: > 0 } list)
        {
            faults.Add(Codes.RuleSetShapeWrong, anyOf.Value.At, $"anyOf is {anyOf.Value.Shape}.", "Write a list of criteria.");
            return [];
        }

        var criteria = new List<Criterion>();
        foreach (var item in list.Items)
        {
            if (Keys.Of(item, faults, "A criterion", DocumentKeys.Criterion) is { } keys
                && One(keys, judges, keys.Find("severity") ?? rule.Find("severity"), "A criterion") is { } criterion)
            {
                criteria.Add(criterion);
            }
        }

        return [.. criteria];
    }

    private Criterion? One(Keys keys, ImmutableArray<SubjectKind> judges, Entry? severity, string what)
    {
        var measure = keys.TryRequiredText("measure", what, out var name) ? MeasureKey.Find(name.Text, name.At, faults) : null;
        if (measure is not null)
        {
            MeasureKey.CheckJudges(measure, judges, name!.At, faults);
        }

        var found = ComparisonKey.Find(keys, keys.At, measure, faults);
        var byBand = found is { } breach ? limits.EveryBand(breach.Entry, measure, breach.Comparison) : null;
        if (severity is null)
        {
            faults.Add(Codes.RuleSetKeyMissing, keys.At, $"{what} has no severity.", Words.Listed(Words.Severities));
            return null;
        }

        // With no limits to hold them against, steps could only be blamed for a fault that is told already.
        return measure is null || byBand is null
            ? null
            : new Criterion(measure, byBand, SeverityReader.Read(severity, found!.Value.Comparison, byBand, faults));
    }
}
