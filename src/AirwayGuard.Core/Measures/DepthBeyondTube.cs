using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>How far a catheter goes, or is ordered to go, beyond the end of the tube: depth less tube and adapter, cm.</summary>
public static class DepthBeyondTube
{
    private const decimal MillimetresPerCentimetre = 10m;

    public static readonly Measure Measure = new(
        "depth-beyond-tube", Dimension.Length, Unit.Centimetre, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.InsertionDepth, Concepts.TubeLength, Concepts.AdapterLength, Concepts.AirwayType, Concepts.TubeInnerDiameter],
        TimeSpan.FromDays(400), TimeSpan.Zero, [], MayBeMissing: false,
        "how far the catheter goes beyond the tube with its adapter",
        Take)
    {
        GoesByAirway = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var depth = Deepest(subject, timeline, care, out var unread);
        if (depth < 0)
        {
            result.Missing = unread >= 0 ? Missing.InsertionDepth : Missing.Nothing;
            result.Charted = unread;
            return;
        }

        result.Uses(depth);
        result.WithinIs = unread >= 0 ? Missing.InsertionDepth : Missing.Nothing;
        result.Charted = depth;
        var isOrder = subject.Kind == SubjectKind.Order;
        var airway = isOrder ? subject.Airway : care.AirwayAt(subject.From);
        var at = isOrder && airway >= 0 ? Math.Max(subject.From, care.Airways[airway].From) : subject.To;
        var tube = TubeLengths.At(Concepts.TubeLength, timeline, care, airway, at);
        if (tube < 0)
        {
            result.Missing = Missing.TubeLength;
            return;
        }

        result.Uses(tube);
        var adapter = TubeLengths.At(Concepts.AdapterLength, timeline, care, airway, at);
        var comparator = timeline.Facts[depth].Value.Comparator;
        if (timeline.Facts[tube].Value.Comparator != Comparator.Exactly || (adapter >= 0 && timeline.Facts[adapter].Value.Comparator != Comparator.Exactly))
        {
            result.Missing = Missing.ExactValue;
        }
        else if (adapter >= 0)
        {
            result.Uses(adapter);
            Set(timeline, depth, tube, adapter, comparator, ref result);
        }
        else if (comparator is Comparator.Above or Comparator.AtLeast)
        {
            result.Missing = Missing.AdapterLength;
        }
        else
        {
            // Whatever the adapter takes, it went at most this far: within the limit that settles it.
            Set(timeline, depth, tube, -1, comparator == Comparator.Exactly ? Comparator.AtMost : comparator, ref result);
            result.OpenIs = Missing.AdapterLength;
        }
    }

    private static void Set(in Timeline timeline, int depth, int tube, int adapter, Comparator comparator, ref Measured result)
    {
        result.Set((Millimetres(timeline, depth) - Millimetres(timeline, tube) - (adapter < 0 ? 0m : Millimetres(timeline, adapter))) / MillimetresPerCentimetre, Unit.Centimetre);
        result.Comparator = comparator;
    }

    // One that cannot be read may have been deeper.
    private static int Deepest(in Subject subject, in Timeline timeline, Care care, out int unread)
    {
        var deepest = -1;
        unread = -1;
        foreach (var index in Own.Facts(subject, care))
        {
            if (timeline.Facts[index].Concept == Concepts.InsertionDepth && Millimetres(timeline, index) > 0m
                && (deepest < 0 || Millimetres(timeline, index) > Millimetres(timeline, deepest)))
            {
                deepest = index;
            }

            unread = timeline.Facts[index].Concept == Concepts.InsertionDepth && timeline.Facts[index].Value.Kind == ValueKind.Unreadable ? index : unread;
        }

        return deepest;
    }

    private static decimal Millimetres(in Timeline timeline, int fact) =>
        Diameters.TryMillimetres(timeline.Facts[fact].Value, out var millimetres) ? millimetres : 0m;
}
