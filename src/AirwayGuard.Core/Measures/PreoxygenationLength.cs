using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Seconds of pre-oxygenation before a pass, where its period or its length is charted. Of a charted length and a period the
/// shorter counts; of several periods that reach into the two minutes before the pass the longest.
/// </summary>
public static class PreoxygenationLength
{
    public static readonly Measure Measure = new(
        "preoxygenation-length", Dimension.Duration, Unit.Second, [SubjectKind.Pass],
        [Concepts.Preoxygenation, Concepts.PreoxygenationDuration],
        TimeSpan.FromHours(4), TimeSpan.Zero, [], MayBeMissing: false,
        "seconds of pre-oxygenation before the pass, where a period or length is charted",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        if (IsCharted(timeline, care, pass, ref result))
        {
            return;
        }

        // What was charted before the first pass of a session holds for the others.
        ref readonly var session = ref care.Sessions[pass.Session];
        ref readonly var first = ref care.Passes[care.PassesBySession[session.FirstPass]];
        if (first.From < pass.From && !IsDenied(timeline, care, pass))
        {
            IsCharted(timeline, care, first, ref result);
        }
    }

    private static bool IsCharted(in Timeline timeline, Care care, in PassSpan pass, ref Measured result)
    {
        var length = Longest(timeline, care, Concepts.PreoxygenationDuration, pass, out var seconds);
        var period = Longest(timeline, care, Concepts.Preoxygenation, pass, out var span);
        var index = length < 0 || (period >= 0 && span < seconds) ? period : length;
        if (index < 0)
        {
            return false;
        }

        result.Uses(index);
        result.Charted = index;
        result.Set(index == length ? seconds : span, Unit.Second);
        result.Comparator = index == length ? timeline.Facts[index].Value.Comparator : Comparator.Exactly;
        return true;
    }

    private static int Longest(in Timeline timeline, Care care, Concept concept, in PassSpan pass, out decimal longest)
    {
        var best = -1;
        longest = -1m;
        foreach (var index in care.MembersOf(pass))
        {
            if (timeline.Facts[index].Concept == concept && Seconds(timeline.Facts[index], pass.From) is >= 0m and var own && own > longest)
            {
                (best, longest) = (index, own);
            }
        }

        var facts = timeline.Of(concept);
        for (var i = Timeline.FirstAfter(facts, pass.From) - 1; i >= 0 && facts[i].EffectiveFrom >= pass.From - CareTimes.OxygenHolds; i--)
        {
            if (facts[i].About == timeline.Patient && facts[i].EffectiveTo >= pass.From - CareTimes.PreoxygenationBefore
                && Seconds(facts[i], pass.From) is >= 0m and var near && near > longest)
            {
                (best, longest) = (timeline.FirstOf(concept) + i, near);
            }
        }

        return best;
    }

    // Of a period only what lies before the pass is pre-oxygenation: one that begins with it, as that of a pass's own row, tells nothing of
    // how long. −1 where neither is charted.
    private static decimal Seconds(in Fact fact, long start)
    {
        if (fact.Concept == Concepts.PreoxygenationDuration)
        {
            return fact.Value.IsNumber && Durations.TrySeconds(fact.Value.Amount, fact.Value.Unit, out var charted) ? charted : -1m;
        }

        var end = Math.Min(fact.EffectiveTo, start);
        return fact.EffectiveTo == fact.EffectiveFrom || fact.EffectiveFrom >= start || fact.Value.Kind is not (ValueKind.Yes or ValueKind.Number)
            ? -1m
            : (decimal)(end - fact.EffectiveFrom) / TimeSpan.TicksPerSecond;
    }

    private static bool IsDenied(in Timeline timeline, Care care, in PassSpan pass)
    {
        foreach (var index in care.MembersOf(pass))
        {
            if (timeline.Facts[index].Concept == Concepts.Preoxygenation && timeline.Facts[index].Value.Kind is ValueKind.No or ValueKind.NotPerformed)
            {
                return true;
            }
        }

        return false;
    }
}
