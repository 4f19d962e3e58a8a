using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether pre-oxygenation stands before a pass.</summary>
public static class PreoxygenationGiven
{
    public static readonly Measure Measure = new(
        "preoxygenation-given", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.Preoxygenation, Concepts.Fio2],
        TimeSpan.FromHours(4), TimeSpan.Zero, ["yes"], MayBeMissing: true,
        "oxygen of 99 % or more, or charted pre-oxygenation, within two minutes before the pass",
        Take);

    private const decimal Full = 0.99m;

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var state = Own(timeline, care, pass, ref result);
        if (state == State.Given || InWindow(timeline, pass.From, ref result) || BaselineIsFull(timeline, care, pass, ref result))
        {
            result.Set("yes");
            return;
        }

        if (Open(timeline, care, pass) is >= 0 and var open)
        {
            result.Uses(open);
            result.Charted = open;
            result.Missing = Missing.Preoxygenation;
            return;
        }

        state = DeniedInWindow(timeline, pass.From, ref result) ? State.Denied : state;
        if (state == State.NotCharted && FromSession(timeline, care, pass, ref result))
        {
            result.Set("yes");
            return;
        }

        result.Omitted = state == State.Denied;
    }

    private enum State : byte
    {
        NotCharted, Given, Denied,
    }

    // The pass's own rows.
    private static State Own(in Timeline timeline, Care care, in PassSpan pass, ref Measured result)
    {
        var state = State.NotCharted;
        foreach (var index in care.MembersOf(pass))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept != Concepts.Preoxygenation)
            {
                continue;
            }

            result.Uses(index);
            if (fact.Value.Kind == ValueKind.Yes)
            {
                return State.Given;
            }

            // A number counts by its time; below 99 % it says what was given instead.
            state = IsFull(fact.Value) ? state : State.Denied;
            Tell(fact, index, ref result);
        }

        return state;
    }

    // Charted with the pass or just before it so that it may have been full oxygen and may not: it cannot be read, or "at least 95 %".
    private static int Open(in Timeline timeline, Care care, in PassSpan pass)
    {
        foreach (var index in care.MembersOf(pass))
        {
            if (timeline.Facts[index].Concept == Concepts.Preoxygenation && MayBeFull(timeline.Facts[index].Value))
            {
                return index;
            }
        }

        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.Preoxygenation, Concepts.Fio2])
        {
            var facts = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(facts, pass.From) - 1; i >= 0 && facts[i].EffectiveFrom >= pass.From - CareTimes.OxygenHolds; i--)
            {
                if (facts[i].About == timeline.Patient && Math.Min(facts[i].EffectiveTo, pass.From) >= pass.From - CareTimes.PreoxygenationBefore && MayBeFull(facts[i].Value))
                {
                    return timeline.FirstOf(concept) + i;
                }
            }
        }

        return -1;
    }

    // Charted apart, within two minutes before the start; a period counts where it reaches into them.
    private static bool InWindow(in Timeline timeline, long start, ref Measured result)
    {
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.Preoxygenation, Concepts.Fio2])
        {
            var facts = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(facts, start) - 1; i >= 0; i--)
            {
                var end = Math.Min(facts[i].EffectiveTo, start);
                if (facts[i].About == timeline.Patient && end >= start - CareTimes.PreoxygenationBefore && IsFull(facts[i].Value))
                {
                    result.Uses(timeline.FirstOf(concept) + i);
                    return true;
                }

                if (facts[i].EffectiveFrom < start - CareTimes.OxygenHolds)
                {
                    break;
                }
            }
        }

        return false;
    }

    // Charted apart that none, or too little, was given just before.
    private static bool DeniedInWindow(in Timeline timeline, long start, ref Measured result)
    {
        var facts = timeline.Of(Concepts.Preoxygenation);
        for (var i = Timeline.FirstAfter(facts, start) - 1; i >= 0 && facts[i].EffectiveFrom >= start - CareTimes.OxygenHolds; i--)
        {
            if (facts[i].About == timeline.Patient && Math.Min(facts[i].EffectiveTo, start) >= start - CareTimes.PreoxygenationBefore && !IsFull(facts[i].Value))
            {
                result.Uses(timeline.FirstOf(Concepts.Preoxygenation) + i);
                Tell(facts[i], timeline.FirstOf(Concepts.Preoxygenation) + i, ref result);
                return true;
            }
        }

        return false;
    }

    // How much was charted is shown; a no is only that none was given.
    private static void Tell(in Fact oxygen, int index, ref Measured result) =>
        result.Charted = oxygen.Value.IsNumber && !IsFull(oxygen.Value) ? index : result.Charted;

    private static bool BaselineIsFull(in Timeline timeline, Care care, in PassSpan pass, ref Measured result)
    {
        var index = BaselineOxygen.Of(timeline, care, pass.From);
        if (index < 0 || !IsFull(timeline.Facts[index].Value))
        {
            return false;
        }

        result.Uses(index);
        return true;
    }

    // Pre-oxygenation before the first pass, charted with one pass of a session, holds for its others.
    private static bool FromSession(in Timeline timeline, Care care, in PassSpan pass, ref Measured result)
    {
        ref readonly var session = ref care.Sessions[pass.Session];
        ref readonly var first = ref care.Passes[care.PassesBySession[session.FirstPass]];
        return first.From < pass.From
            && (Own(timeline, care, first, ref result) == State.Given || InWindow(timeline, first.From, ref result));
    }

    private static bool MayBeFull(in FactValue value) => value.Kind == ValueKind.Unreadable
        || (value.IsNumber && Fractions.TryInspiredOxygen(value.Amount, out var fraction) && value.Comparator switch
        {
            Comparator.AtLeast or Comparator.Above => fraction < Full,
            Comparator.AtMost => fraction >= Full,
            Comparator.Below => fraction > Full,
            _ => false,
        });

    private static bool IsFull(in FactValue value) => value.Kind == ValueKind.Yes
        || (value.IsNumber && value.Comparator is Comparator.Exactly or Comparator.AtLeast or Comparator.Above
            && Fractions.TryInspiredOxygen(value.Amount, out var fraction) && fraction >= Full);
}
