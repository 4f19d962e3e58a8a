using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// How far inspired oxygen is raised for a pass: the highest fio2 or pre-oxygenation from two minutes before the start to the end
/// (the start where no end is charted), less the baseline. Of an order: the share it states, less the latest fio2.
/// </summary>
public static class OxygenRise
{
    public static readonly Measure Measure = new(
        "oxygen-rise", Dimension.Fraction, Unit.One, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.Fio2, Concepts.Preoxygenation],
        TimeSpan.FromHours(4), TimeSpan.Zero, [], MayBeMissing: false,
        "highest inspired oxygen around the pass, or as ordered, less the oxygen before",
        Take)
    {
        IsDifferenceOfShares = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var isOrder = subject.Kind == SubjectKind.Order;
        var highest = isOrder ? Ordered(subject, timeline, care) : Around(subject, timeline, care);
        if (isOrder && highest.Index < 0)
        {
            return;
        }

        var baseline = isOrder ? BaselineOxygen.At(timeline, care, subject.From) : BaselineOxygen.Before(timeline, care, subject.Index);
        Set(subject, timeline, highest, baseline, ref result);
    }

    private static void Set(in Subject subject, in Timeline timeline, in Highest highest, int baseline, ref Measured result)
    {
        if (baseline < 0 || !Fractions.TryInspiredOxygen(timeline.Facts[baseline].Value.Amount, out var before))
        {
            result.Missing = Missing.BaselineOxygen;
            return;
        }

        if (highest.Index < 0)
        {
            // Given, but nobody says how much; where nothing is charted nothing was raised that could be judged.
            result.Missing = highest.IsGiven ? Missing.OxygenGiven : Missing.Nothing;
            return;
        }

        result.Uses(highest.Index);
        result.Uses(baseline);
        result.Charted = highest.Index;
        if (timeline.Facts[baseline].Value.Comparator != Comparator.Exactly)
        {
            result.Missing = Missing.ExactValue;
            return;
        }

        result.Set(highest.Fraction - before, Unit.One);
        result.Comparator = timeline.Facts[highest.Index].Value.Comparator;
    }

    private static Highest Ordered(in Subject subject, in Timeline timeline, Care care)
    {
        var highest = default(Highest);
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            highest = fact.Concept == Concepts.Preoxygenation || fact.Concept == Concepts.Fio2 ? highest.With(fact, index) : highest;
        }

        return highest;
    }

    // A number counts by its time; that pre-oxygenation was given counts with the pass, whenever it was charted.
    private static Highest Around(in Subject subject, in Timeline timeline, Care care)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var highest = default(Highest);
        foreach (var index in care.MembersOf(pass))
        {
            ref readonly var fact = ref timeline.Facts[index];
            highest = fact.Concept == Concepts.Preoxygenation && fact.Value.Kind is ValueKind.Yes or ValueKind.Unreadable ? highest.With(fact, index) : highest;
        }

        var (from, to) = (pass.From - CareTimes.PreoxygenationBefore, pass.HasEnd ? pass.To : pass.From);
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.Fio2, Concepts.Preoxygenation])
        {
            var facts = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(facts, to) - 1; i >= 0 && facts[i].EffectiveFrom >= pass.From - CareTimes.OxygenHolds; i--)
            {
                if (facts[i].About == timeline.Patient && facts[i].EffectiveTo >= from)
                {
                    highest = highest.With(facts[i], timeline.FirstOf(concept) + i);
                }
            }
        }

        return highest;
    }

    private readonly record struct Highest(int Place, decimal Fraction, bool IsGiven)
    {
        public int Index => Place - 1;

        public Highest With(in Fact fact, int index) =>
            fact.Value.Kind is ValueKind.Yes or ValueKind.Unreadable ? this with { IsGiven = true }
            : fact.Value.IsNumber && Fractions.TryInspiredOxygen(fact.Value.Amount, out var fraction) && fraction > Fraction ? this with { Place = index + 1, Fraction = fraction }
            : this;
    }
}
