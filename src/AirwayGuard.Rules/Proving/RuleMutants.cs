using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Proving;

/// <summary>
/// Every way in which one limit, comparison, mark, guard, wait or withholding of a rule set could be wrong by a little: what the cases
/// beside a rule set must notice.
/// </summary>
internal static class RuleMutants
{
    /// <summary>The step in which waits are written.</summary>
    private static readonly TimeSpan ShortestWait = TimeSpan.FromMinutes(1);

    public static IEnumerable<RuleMutant> Of(RuleSet set)
    {
        for (var i = 0; i < set.Rules.Length; i++)
        {
            var (index, rule) = (i, set.Rules[i]);
            foreach (var (what, changed) in OfRule(rule))
            {
                yield return new RuleMutant(rule.Id, what, set with { Rules = set.Rules.SetItem(index, changed) });
            }
        }
    }

    private static IEnumerable<(string What, Rule Changed)> OfRule(Rule rule)
    {
        // Where every band's limit is left to the site nothing is judged yet, so nothing changed in the rule could show.
        if (!rule.Criteria.SelectMany(static criterion => RuleLimits.OfBands(criterion.Limits)).Any())
        {
            yield break;
        }

        for (var i = 0; i < rule.Criteria.Length; i++)
        {
            var (at, criterion) = (i, rule.Criteria[i]);
            var name = rule.Criteria.Length > 1 ? $"{criterion.Measure.Id}, " : "";
            foreach (var (what, limits) in OfLimits(criterion.Limits, criterion.Measure).Concat(OfBandsNotJudged(criterion.Limits)))
            {
                yield return (name + what, rule with { Criteria = rule.Criteria.SetItem(at, criterion with { Limits = limits }) });
            }

            foreach (var (what, severity) in OfSeverity(criterion))
            {
                yield return (name + what, rule with { Criteria = rule.Criteria.SetItem(at, criterion with { Severity = severity }) });
            }
        }

        for (var i = 0; i < rule.Tighten.Length; i++)
        {
            var (at, circumstance) = (i, rule.Tighten[i]);
            var name = $"where {string.Join(" and ", circumstance.When.Select(guard => guard.Measure.Id))}, ";
            foreach (var (what, limits) in OfLimits(circumstance.Limits, rule.Criteria[0].Measure))
            {
                yield return (name + what, rule with { Tighten = rule.Tighten.SetItem(at, circumstance with { Limits = limits }) });
            }

            foreach (var (what, when) in OfGuards(circumstance.When))
            {
                yield return (name + what, rule with { Tighten = rule.Tighten.SetItem(at, circumstance with { When = when }) });
            }

            yield return ($"{name}left out", rule with { Tighten = rule.Tighten.RemoveAt(at) });
        }

        foreach (var changed in OfAllowances(rule).Concat(OfApplying(rule)))
        {
            yield return changed;
        }
    }

    private static IEnumerable<(string What, Rule Changed)> OfAllowances(Rule rule)
    {
        for (var i = 0; i < rule.Allow.Length; i++)
        {
            var (at, allowance) = (i, rule.Allow[i]);
            yield return ($"the allowance for {allowance.Reason} left out", rule with { Allow = rule.Allow.RemoveAt(at) });
            if (allowance.Limits is { } looser)
            {
                foreach (var (what, limits) in OfLimits(looser, rule.Criteria[0].Measure))
                {
                    yield return ($"allowed for {allowance.Reason}, {what}", rule with { Allow = rule.Allow.SetItem(at, allowance with { Limits = limits }) });
                }
            }
        }
    }

    private static IEnumerable<(string What, Rule Changed)> OfApplying(Rule rule)
    {
        foreach (var (what, guards) in OfGuards(rule.Unless))
        {
            yield return ($"not judged where {what}", rule with { Unless = guards });
        }

        for (var i = 0; i < rule.Unless.Length; i++)
        {
            yield return ($"judged also where {rule.Unless[i].Measure.Id}", rule with { Unless = rule.Unless.RemoveAt(i) });
        }

        // How long an answer is waited for shows where absence itself is the breach; elsewhere it only holds back what cannot be told.
        if (rule.Criteria.Any(static criterion => RuleLimits.OfBands(criterion.Limits).Any(static limit => limit.Comparison == Comparison.Missing)))
        {
            foreach (var wait in ((TimeSpan[])[rule.Waits - ShortestWait, rule.Waits + ShortestWait]).Where(static wait => wait >= TimeSpan.Zero))
            {
                yield return (string.Create(CultureInfo.InvariantCulture, $"waits {wait.TotalMinutes} min instead of {rule.Waits.TotalMinutes} min"), rule with { Waits = wait });
            }
        }

        if (rule.WithheldBy.Length > 0)
        {
            yield return ("withheld by nothing", rule with { WithheldBy = "" });
        }

        if (rule.Stands != Standing.Once)
        {
            yield return ("stands on nothing", rule with { Stands = Standing.Once });
            foreach (var other in Lines(rule).Where(other => other != rule.Stands))
            {
                yield return ($"stands on the {Words.Of(Words.Standings, other)} instead of the {Words.Of(Words.Standings, rule.Stands)}", rule with { Stands = other });
            }
        }

        yield return (rule.NeedsAge ? "judged without an age" : "judged only with an age", rule with { NeedsAge = !rule.NeedsAge });
    }

    // What else it could stand on. An airway, an outlet and time that runs have one line, whatever the rule says.
    private static IEnumerable<Standing> Lines(Rule rule) => rule.Judges.SelectMany(static kind => (Standing[])(kind switch
    {
        SubjectKind.Setting => [Standing.Regulator, Standing.Episode, Standing.Airway],
        SubjectKind.Pass or SubjectKind.Session or SubjectKind.Cuff => [Standing.Episode, Standing.Airway],
        SubjectKind.Order => [Standing.Order, Standing.Episode, Standing.Airway],
        _ => [],
    })).Distinct();

    // A limit that holds for all ages is one limit: a slip changes it for all.
    private static IEnumerable<(string What, BandLimits Limits)> OfLimits(BandLimits limits, Measure measure)
    {
        foreach (var (name, bands, limit) in Written(limits))
        {
            foreach (var changed in OfLimit(limit, measure))
            {
                yield return ($"{name}{LimitWords.Short(changed)} instead of {LimitWords.Short(limit)}", With(limits, bands, changed));
            }

            if (bands.Count < Words.Bands.Length)
            {
                yield return ($"{name}not judged", With(limits, bands, null));
            }
        }
    }

    // A band that is not judged, judged by the limit of the nearest that is.
    private static IEnumerable<(string What, BandLimits Limits)> OfBandsNotJudged(BandLimits limits)
    {
        foreach (var (word, band) in Words.Bands.Where(one => limits.For(one.Value) is null))
        {
            var nearest = Words.Bands.OrderBy(other => Math.Abs((int)other.Value - (int)band)).Select(other => limits.For(other.Value)).OfType<Limit>().First();
            yield return ($"{word} {LimitWords.Short(nearest)} instead of not judged", With(limits, [band], nearest));
        }
    }

    private static IEnumerable<(string Name, HashSet<AgeBand> Bands, Limit Limit)> Written(BandLimits limits)
    {
        if (limits.AreOne)
        {
            if (limits.For(AgeBand.Adult) is { } all)
            {
                yield return ("", [.. Words.Bands.Select(static band => band.Value)], all);
            }

            yield break;
        }

        foreach (var (word, band) in Words.Bands)
        {
            if (limits.For(band) is { } limit)
            {
                yield return (word + " ", [band], limit);
            }
        }
    }

    private static BandLimits With(BandLimits limits, HashSet<AgeBand> bands, Limit? changed) =>
        new([.. Words.Bands.Select(band => bands.Contains(band.Value) ? changed : limits.For(band.Value))]);

    private static IEnumerable<Limit> OfLimit(Limit limit, Measure measure)
    {
        var step = LimitSteps.Of(limit.Unit);
        switch (limit.Comparison)
        {
            case Comparison.Missing:
                break;
            case Comparison.Is or Comparison.IsNot:
                yield return limit with { Comparison = limit.Comparison == Comparison.Is ? Comparison.IsNot : Comparison.Is };
                if (LimitSteps.OtherCode(measure, limit.Code) is { } other)
                {
                    yield return limit with { Code = other };
                }

                break;
            case Comparison.Outside:
                yield return limit with { Low = limit.Low - step };
                yield return limit with { Low = limit.Low + step };
                yield return limit with { High = limit.High - step };
                yield return limit with { High = limit.High + step };
                break;
            default:
                // Time that only runs is held against its limit in one way, whatever word the rule has for it: over, once it ran longer.
                foreach (var comparison in measure.OnlyRuns ? [] : Flips(limit.Comparison))
                {
                    yield return limit with { Comparison = comparison };
                }

                yield return limit with { Low = limit.Low - step, High = limit.High - step };
                yield return limit with { Low = limit.Low + step, High = limit.High + step };
                break;
        }
    }

    private static Comparison[] Flips(Comparison comparison) => comparison switch
    {
        Comparison.Above => [Comparison.AtOrAbove, Comparison.Below],
        Comparison.AtOrAbove => [Comparison.Above, Comparison.AtOrBelow],
        Comparison.Below => [Comparison.AtOrBelow, Comparison.Above],
        _ => [Comparison.Below, Comparison.AtOrAbove],
    };

    private static IEnumerable<(string What, SeveritySteps Severity)> OfSeverity(Criterion criterion)
    {
        var (severity, unit) = (criterion.Severity, RuleLimits.OfBands(criterion.Limits).FirstOrDefault()?.Unit ?? Unit.None);
        foreach (var (word, value) in Words.Severities.Where(row => row.Value != severity.Base))
        {
            yield return ($"severity {word} instead of {Words.Of(Words.Severities, severity.Base)}", severity with { Base = value });
        }

        for (var i = 0; i < severity.Steps.Length; i++)
        {
            var step = severity.Steps[i];
            foreach (var mark in (decimal[])[step.Above - LimitSteps.Of(unit), step.Above + LimitSteps.Of(unit)])
            {
                yield return (
                    $"severity {Words.Of(Words.Severities, step.Severity)} above {Words.Number(mark)} instead of {Words.Number(step.Above)}",
                    severity with { Steps = severity.Steps.SetItem(i, step with { Above = mark }) });
            }
        }
    }

    private static IEnumerable<(string What, ImmutableArray<Guard> Guards)> OfGuards(ImmutableArray<Guard> guards)
    {
        for (var i = 0; i < guards.Length; i++)
        {
            foreach (var limit in OfLimit(guards[i].Limit, guards[i].Measure))
            {
                yield return ($"{guards[i].Measure.Id} {LimitWords.Short(limit)} instead of {LimitWords.Short(guards[i].Limit)}", guards.SetItem(i, guards[i] with { Limit = limit }));
            }
        }
    }
}
