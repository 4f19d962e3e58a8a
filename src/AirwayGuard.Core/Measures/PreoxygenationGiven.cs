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

        if (IsOpen(timeline, care, pass, ref result))
        {
            return;
        }

        state = DeniedInWindow(timeline, pass.From, ref result) ? State.Denied : state;
        if (state == State.NotCharted)
        {
            FromSession(timeline, care, pass, ref result);
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
            if (fact.Value.Kind == ValueKind.Yes && !IsContradicted(timeline, fact))
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
    private static bool IsOpen(in Timeline timeline, Care care, in PassSpan pass, ref Measured result)
    {
        var open = -1;
        foreach (var index in care.MembersOf(pass))
        {
            ref readonly var fact = ref timeline.Facts[index];
            open = fact.Concept == Concepts.Preoxygenation && (MayBeFull(fact.Value) || (IsFull(fact.Value) && IsContradicted(timeline, fact))) ? index : open;
        }

        open = open >= 0 ? open : Find(timeline, pass.From, [Concepts.Preoxygenation, Concepts.Fio2], static value => MayBeFull(value));
        open = open >= 0 ? open : Find(timeline, pass.From, [Concepts.Preoxygenation], static value => IsFull(value), contradicted: true);
        if (open < 0)
        {
            return false;
        }

        result.Uses(open);
        result.Charted = open;
        result.Missing = Missing.Preoxygenation;
        return true;
    }

    private static bool InWindow(in Timeline timeline, long start, ref Measured result)
    {
        var index = Find(timeline, start, [Concepts.Preoxygenation, Concepts.Fio2], static value => IsFull(value), contradicted: false);
        if (index >= 0)
        {
            result.Uses(index);
        }

        return index >= 0;
    }

    // That it was given and that it was not, of one instant: nobody can tell.
    private static bool IsContradicted(in Timeline timeline, in Fact given)
    {
        var facts = timeline.Of(Concepts.Preoxygenation);
        var isDenied = false;
        for (var i = Timeline.FirstAfter(facts, given.EffectiveFrom) - 1; i >= 0 && facts[i].EffectiveFrom == given.EffectiveFrom; i--)
        {
            isDenied |= facts[i].About == given.About && facts[i].Value.Kind is ValueKind.No or ValueKind.NotPerformed;
        }

        return isDenied && given.Concept == Concepts.Preoxygenation;
    }

    // Charted apart that none, or too little, was given just before.
    private static bool DeniedInWindow(in Timeline timeline, long start, ref Measured result)
    {
        var index = Find(timeline, start, [Concepts.Preoxygenation], static value => !IsFull(value));
        if (index >= 0)
        {
            result.Uses(index);
            Tell(timeline.Facts[index], index, ref result);
        }

        return index >= 0;
    }

    // The latest charted within two minutes before the start, -1 for none; a period counts where it reaches into them.
    private static int Find(in Timeline timeline, long start, ReadOnlySpan<Concept> concepts, Func<FactValue, bool> fits, bool? contradicted = null)
    {
        foreach (var concept in concepts)
        {
            var facts = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(facts, start) - 1; i >= 0 && facts[i].EffectiveFrom >= start - CareTimes.OxygenHolds; i--)
            {
                if (facts[i].About == timeline.Patient && Math.Min(facts[i].EffectiveTo, start) >= start - CareTimes.PreoxygenationBefore && fits(facts[i].Value)
                    && (contradicted is null || contradicted == IsContradicted(timeline, facts[i])))
                {
                    return timeline.FirstOf(concept) + i;
                }
            }
        }

        return -1;
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

    // Pre-oxygenation before the first pass, charted with one pass of a session, holds for its others; so does that nobody can read it.
    private static void FromSession(in Timeline timeline, Care care, in PassSpan pass, ref Measured result)
    {
        ref readonly var session = ref care.Sessions[pass.Session];
        ref readonly var first = ref care.Passes[care.PassesBySession[session.FirstPass]];
        if (first.From >= pass.From)
        {
            return;
        }

        if (Own(timeline, care, first, ref result) == State.Given || InWindow(timeline, first.From, ref result))
        {
            result.Set("yes");
        }
        else
        {
            IsOpen(timeline, care, first, ref result);
        }
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
