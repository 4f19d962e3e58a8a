using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>The suction catheter of a pass: charted with it, the device its Procedure used, else the latest one, which holds until changed or the airway ends; a closed one on record as in use is such a one.</summary>
internal static class CatheterInUse
{
    private static readonly int Open = Answers.Of("open");

    /// <returns>Index of the fact that gives its size; −1 if none.</returns>
    public static int At(in Timeline timeline, Care care, in Subject subject)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var own = Largest(timeline, care.MembersOf(pass));
        if (own >= 0)
        {
            return own;
        }

        var used = OfUsedDevice(timeline, pass.Anchor);
        if (used >= 0)
        {
            return used;
        }

        var airway = care.AirwayAt(pass.From);
        var since = airway < 0 ? long.MinValue : care.Airways[airway].From;
        var row = Latest(timeline, care, pass.From, since);
        var rowAt = row < 0 ? long.MinValue : timeline.Facts[row].EffectiveFrom;
        for (var i = subject.Index - 1; i >= 0 && care.Passes[i].From >= since && care.Passes[i].From >= rowAt; i--)
        {
            var earlier = OfUsedDevice(timeline, care.Passes[i].Anchor);
            if (earlier >= 0)
            {
                return earlier;
            }
        }

        var closed = OfClosed(timeline, care, pass, out var placed);
        return closed >= 0 && placed > rowAt ? closed : row;
    }

    // A closed catheter on record as in use stays on the airway from pass to pass; a pass charted as open was not made with it.
    private static int OfClosed(in Timeline timeline, Care care, in PassSpan pass, out long placed)
    {
        var found = -1;
        placed = long.MinValue;
        if (Own.Coded(Concepts.SuctionSystem, care.MembersOf(pass), timeline) is >= 0 and var system && timeline.Facts[system].Value.Symbol == Open)
        {
            return found;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.UsedBy && link.To == timeline.Patient && link.FromTime > placed && link.FromTime <= pass.From && pass.From < link.ToTime
                && care.KindOf(link.From) == Answers.ClosedSuctionCatheter && AirwayBuilder.PropertyFact(timeline, Concepts.CatheterSize, link.From) is >= 0 and var size)
            {
                (found, placed) = (size, link.FromTime);
            }
        }

        return found;
    }

    private static int Largest(in Timeline timeline, ReadOnlySpan<int> members)
    {
        var largest = -1;
        foreach (var index in members)
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.CatheterSize && fact.Value.IsNumber
                && (largest < 0 || fact.Value.Magnitude > timeline.Facts[largest].Value.Magnitude))
            {
                largest = index;
            }
        }

        return largest;
    }

    private static int OfUsedDevice(in Timeline timeline, Entity act)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind != LinkKind.Uses || link.From != act)
            {
                continue;
            }

            var fact = AirwayBuilder.PropertyFact(timeline, Concepts.CatheterSize, link.To);
            if (fact >= 0)
            {
                return fact;
            }
        }

        return -1;
    }

    private static int Latest(in Timeline timeline, Care care, long at, long since)
    {
        var facts = timeline.Of(Concepts.CatheterSize);
        var latest = -1;
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0 && facts[i].EffectiveFrom >= since; i--)
        {
            if (latest >= 0 && facts[i].EffectiveFrom < facts[latest].EffectiveFrom)
            {
                break;
            }

            // Of two charted at one instant the larger counts.
            if (facts[i].About == timeline.Patient && facts[i].Value.IsNumber && !facts[i].Has(FactMarks.Timeless)
                && !care.MayBeOfOtherSuction(timeline.FirstOf(Concepts.CatheterSize) + i)
                && (latest < 0 || facts[i].Value.Magnitude > facts[latest].Value.Magnitude))
            {
                latest = i;
            }
        }

        return latest < 0 ? -1 : timeline.FirstOf(Concepts.CatheterSize) + latest;
    }
}
