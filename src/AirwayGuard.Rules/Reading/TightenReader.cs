using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads <c>tighten</c>: circumstances in which a stricter limit holds too.</summary>
internal sealed class TightenReader(Faults faults, LimitReader limits, GuardReader guards)
{
    /// <param name="criteria">The rule's criteria as far as they could be read.</param>
    /// <param name="sound">True where they had no fault, so that a tightening can be held against them.</param>
    public ImmutableArray<Circumstance> Read(Keys rule, ImmutableArray<SubjectKind> judges, ImmutableArray<Criterion> criteria, bool sound)
    {
        if (rule.Find("tighten") is not { } entry)
        {
            return [];
        }

        if (entry.Value is not ListNode { Items.Count: > 0 } list)
        {
            faults.Add(Codes.RuleSetShapeWrong, entry.Value.At, $"tighten is {entry.Value.Shape}.", "Write a list of circumstances, each with when and a limit.");
            return [];
        }

        if (rule.Has("anyOf"))
        {
            faults.Add(Codes.LimitNeedsOneMeasure, entry.At, "tighten stands in a rule with anyOf.");
            return [];
        }

        return [.. list.Items.Select(item => One(item, judges, criteria, sound)).OfType<Circumstance>()];
    }

    private Circumstance? One(Node item, ImmutableArray<SubjectKind> judges, ImmutableArray<Criterion> criteria, bool sound)
    {
        if (Keys.Of(item, faults, "A tightening", DocumentKeys.Tightening) is not { } keys)
        {
            return null;
        }

        ImmutableArray<Guard> when = [];
        if (keys.Find("when") is { } entry)
        {
            when = guards.Read(entry, judges);
        }
        else
        {
            faults.Add(Codes.RuleSetKeyMissing, keys.At, "A tightening has no when.", "Say in which circumstance it holds.");
        }

        if (criteria is not [var own] || ComparisonKey.Find(keys, keys.At, own.Measure, faults) is not { } found)
        {
            return null;
        }

        var byBand = limits.BandsNamed(found.Entry, own.Measure, found.Comparison, own.Limits);
        if (sound)
        {
            CheckStricter(found.Entry, found.Comparison, byBand, own.Limits, when);
        }

        return new Circumstance(when, byBand);
    }

    private void CheckStricter(Entry comparison, Comparison written, BandLimits tightened, BandLimits own, ImmutableArray<Guard> when)
    {
        var pairs = Words.Bands.Select(band => (Tight: tightened.For(band.Value), Own: own.For(band.Value))).ToList();
        if (pairs.TrueForAll(pair => pair.Tight is null))
        {
            return;
        }

        var judged = pairs.Where(pair => pair is { Tight: not null, Own: not null }).ToList();
        if (judged.Count > 0 && !judged.Exists(pair => LimitOrder.SameDirection(written, pair.Own!.Comparison)))
        {
            faults.Add(
                Codes.CircumstanceDoesNotFit, comparison.At,
                $"{comparison.Key} tightens a rule whose breach is {Words.Of(Words.Comparisons, judged[0].Own!.Comparison)}.");
        }
        else if (!judged.Exists(pair => LimitOrder.IsStricter(pair.Tight!, pair.Own!)))
        {
            faults.Add(Codes.TightenChangesNothing, comparison.At, $"Where {string.Join(" and ", when.Select(static guard => guard.Measure.Id))} holds, no band's own limit is looser than {LimitWords.Short(judged.Select(static pair => pair.Tight!).First())}.", Codes.TightenChangesNothing.Advice + " A tightening of the base is taken away with tighten: none.");
        }
    }
}
