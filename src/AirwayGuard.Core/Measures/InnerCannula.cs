using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Whether an inner cannula is in place at a time, and which fact gives its diameter. A charted diameter, a mark or a Device in use
/// puts one in place; false, 0 or the end of its use ends it. A row that cannot be read may have said any of it, and so may two marks of one
/// instant that differ: from it on the diameter is unknown.
/// </summary>
internal static class InnerCannula
{
    // At one instant: the end of the one before, then what cannot be read, then what puts one in place, then the denial.
    private const int UseEnds = 0, Unread = 1, Set = 2, Charted = 3, Denied = 4;

    /// <returns>Index of the fact that gives the diameter; −1 where none is in place or its diameter is not charted.</returns>
    public static int At(in Timeline timeline, Care care, in AirwaySpan airway, long at, out bool isInPlace)
    {
        var state = new State { At = at, Ended = (airway.From, int.MinValue), Sized = (long.MinValue, 0), Diameter = -1 };
        FindEnd(timeline, care, airway, ref state);
        TakeMarks(timeline, ref state);
        TakeDiameters(timeline, ref state);
        TakeUnreadMarks(timeline, ref state);
        TakeDevices(timeline, care, airway, ref state);
        isInPlace = state.IsInPlace;
        return state.Diameter;
    }

    private static void FindEnd(in Timeline timeline, Care care, in AirwaySpan airway, ref State state)
    {
        var marks = timeline.Of(Concepts.InnerCannulaInPlace);
        foreach (ref readonly var mark in marks)
        {
            if (mark.About == timeline.Patient && mark.Value.Kind == ValueKind.No && !IsContradicted(marks, mark))
            {
                state.End(mark.EffectiveFrom, Denied);
            }
        }

        foreach (ref readonly var diameter in timeline.Of(Concepts.InnerCannulaDiameter))
        {
            if (IsCharted(timeline, diameter, out var millimetres) && millimetres == 0m)
            {
                state.End(diameter.EffectiveFrom, Charted);
            }
        }

        foreach (ref readonly var use in timeline.Links)
        {
            if (IsCannula(timeline, care, airway, use))
            {
                state.End(use.ToTime, UseEnds);
            }
        }
    }

    private static void TakeMarks(in Timeline timeline, ref State state)
    {
        foreach (ref readonly var mark in timeline.Of(Concepts.InnerCannulaInPlace))
        {
            state.IsInPlace |= mark.About == timeline.Patient && mark.Value.Kind == ValueKind.Yes && state.Holds(mark.EffectiveFrom, Set);
        }
    }

    private static void TakeDiameters(in Timeline timeline, ref State state)
    {
        var facts = timeline.Of(Concepts.InnerCannulaDiameter);
        for (var i = 0; i < facts.Length; i++)
        {
            var isRead = IsCharted(timeline, facts[i], out var millimetres);
            if (isRead && millimetres > 0m && state.Holds(facts[i].EffectiveFrom, Charted))
            {
                // Two sizes of one instant: nobody knows which holds.
                var fact = timeline.FirstOf(Concepts.InnerCannulaDiameter) + i;
                var isContradicted = state.Sized == (facts[i].EffectiveFrom, Charted)
                    && (state.Diameter < 0 || TwoDiameters.Differ(timeline.Facts[state.Diameter], facts[i]));
                state.Take(facts[i].EffectiveFrom, Charted, isContradicted ? -1 : fact);
            }
            else if (!isRead && facts[i].About == timeline.Patient && !facts[i].Has(FactMarks.Timeless) && state.Holds(facts[i].EffectiveFrom, Unread))
            {
                state.Take(facts[i].EffectiveFrom, Unread, -1);
            }
        }
    }

    // Whether one is in place is told again by the next mark that can be read.
    private static void TakeUnreadMarks(in Timeline timeline, ref State state)
    {
        var marks = timeline.Of(Concepts.InnerCannulaInPlace);
        var told = long.MinValue;
        for (var i = Timeline.FirstAfter(marks, state.At) - 1; i >= 0; i--)
        {
            if (marks[i].About != timeline.Patient || marks[i].Has(FactMarks.Timeless))
            {
                continue;
            }

            var isContradicted = IsContradicted(marks, marks[i]);
            if (isContradicted && marks[i].EffectiveFrom > told && state.Holds(marks[i].EffectiveFrom, Denied))
            {
                // A size beside it tells no better whether it is in place.
                state.Take(marks[i].EffectiveFrom, Denied, -1);
            }
            else if (!isContradicted && marks[i].Value.Kind is ValueKind.Yes or ValueKind.No)
            {
                told = Math.Max(told, marks[i].EffectiveFrom);
            }
            else if (!isContradicted && marks[i].EffectiveFrom > told && state.Holds(marks[i].EffectiveFrom, Unread))
            {
                state.Take(marks[i].EffectiveFrom, Unread, -1);
            }
        }
    }

    private static void TakeDevices(in Timeline timeline, Care care, in AirwaySpan airway, ref State state)
    {
        foreach (ref readonly var use in timeline.Links)
        {
            var from = Math.Max(use.FromTime, airway.From);
            if (IsCannula(timeline, care, airway, use) && state.Holds(from, Set))
            {
                var own = AirwayBuilder.PropertyFact(timeline, Concepts.InnerCannulaDiameter, use.From);
                var concept = own >= 0 ? Concepts.InnerCannulaDiameter : Concepts.TubeInnerDiameter;
                state.Take(from, Set, TwoDiameters.OfDevice(timeline, concept, use.From) ? -1 : AirwayBuilder.PropertyFact(timeline, concept, use.From));
            }
        }
    }

    private static bool IsContradicted(ReadOnlySpan<Fact> marks, in Fact mark)
    {
        var (yes, no) = (false, false);
        for (var i = Timeline.FirstAfter(marks, mark.EffectiveFrom) - 1; i >= 0 && marks[i].EffectiveFrom == mark.EffectiveFrom; i--)
        {
            yes |= marks[i].About == mark.About && marks[i].Value.Kind == ValueKind.Yes;
            no |= marks[i].About == mark.About && marks[i].Value.Kind == ValueKind.No;
        }

        return yes && no;
    }

    private static bool IsCharted(in Timeline timeline, in Fact fact, out decimal millimetres)
    {
        millimetres = 0m;
        return fact.About == timeline.Patient && !fact.Has(FactMarks.Timeless) && Diameters.TryMillimetres(fact.Value, out millimetres);
    }

    private static bool IsCannula(in Timeline timeline, Care care, in AirwaySpan airway, in Link use) =>
        use.Kind == LinkKind.UsedBy && use.To == timeline.Patient && care.KindOf(use.From) == Answers.InnerCannula
        && (use.FromTime == long.MinValue || use.FromTime >= airway.From)
        && !(AirwayBuilder.IsTimeless(use) && AirwayBuilder.HasTimedUse(timeline, use.From));

    private ref struct State
    {
        public long At;
        public (long At, int Rank) Ended;
        public (long At, int Rank) Sized;
        public int Diameter;
        public bool IsInPlace;

        public void End(long at, int rank)
        {
            if (at <= At && (at, rank).CompareTo(Ended) > 0)
            {
                Ended = (at, rank);
            }
        }

        public readonly bool Holds(long at, int rank) => at <= At && (at, rank).CompareTo(Ended) > 0;

        // The latest one is in use, also where nobody charted its size.
        public void Take(long at, int rank, int diameter)
        {
            IsInPlace = true;
            if ((at, rank).CompareTo(Sized) >= 0)
            {
                (Sized, Diameter) = ((at, rank), diameter);
            }
        }
    }
}
