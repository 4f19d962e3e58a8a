using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Time since the closed catheter in place was first used, until another is. A closed catheter is known by its Device: in use by
/// the patient, or used by a pass; closed suction without one cannot tell.
/// </summary>
public static class ClosedCatheterUse
{
    private static readonly int Closed = Answers.Of("closed");

    public static readonly Measure Measure = new(
        "time-since-closed-catheter-first-used", Dimension.Duration, Unit.Hour, [SubjectKind.Due],
        [Concepts.SuctionSystem, Concepts.SuctionPass, Concepts.DeviceKind, Concepts.AirwayType],
        TimeSpan.FromDays(400), TimeSpan.Zero, [], MayBeMissing: false,
        "time since the closed catheter in place was first used",
        DueTimes.Elapsed)
    {
        Runs = List,
    };

    private static void List(in Timeline timeline, Care care, ICollection<DueRun> into)
    {
        if (care.Airways.Length == 0)
        {
            return;
        }

        var catheters = Catheters(timeline, care);
        foreach (ref readonly var airway in care.Airways)
        {
            var line = new Line(LineKind.Airway, airway.Identity);
            var any = false;
            for (var i = 0; i < catheters.Count; i++)
            {
                var (first, end, fact, offset) = catheters[i];
                var next = i + 1 < catheters.Count ? catheters[i + 1].First : long.MaxValue;
                var until = Math.Min(Math.Min(next, end), airway.To);
                if (first < airway.To && until > airway.From)
                {
                    any = true;
                    into.Add(new DueRun(
                        line, first, until, airway.From, fact, until == next && next != long.MaxValue ? catheters[i + 1].Fact : -1, offset));
                }
            }

            if (!any && FirstClosed(timeline, care, airway) is >= 0 and var pass)
            {
                ref readonly var span = ref care.Passes[pass];
                into.Add(new DueRun(line, span.From, airway.To, long.MinValue, -1, -1, span.OffsetMinutes, Missing.ClosedCatheter));
            }
        }
    }

    // Each closed catheter with its first use and the end of its use, in order of first use.
    private static List<(long First, long End, int Fact, short Offset)> Catheters(in Timeline timeline, Care care)
    {
        var catheters = new List<(long First, long End, int Fact, short Offset)>();
        var facts = timeline.Of(Concepts.DeviceKind);
        for (var i = 0; i < facts.Length; i++)
        {
            if (facts[i].Value.Symbol == Answers.ClosedSuctionCatheter && FirstUse(timeline, care, facts[i].About) is { First: > long.MinValue and < long.MaxValue } use)
            {
                catheters.Add((use.First, use.End, timeline.FirstOf(Concepts.DeviceKind) + i, use.Offset));
            }
        }

        catheters.Sort();
        return catheters;
    }

    private static (long First, long End, short Offset) FirstUse(in Timeline timeline, Care care, Entity device)
    {
        var (first, end, offset) = (long.MaxValue, long.MinValue, (short)0);
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.UsedBy && link.From == device && link.To == timeline.Patient && link.FromTime != long.MinValue)
            {
                first = Math.Min(first, link.FromTime);
                end = Math.Max(end, link.ToTime);
            }

            if (link.Kind == LinkKind.Uses && link.To == device && PassOf(care, link.From) is >= 0 and var pass && care.Passes[pass].From < first)
            {
                (first, offset) = (care.Passes[pass].From, care.Passes[pass].OffsetMinutes);
            }
        }

        return (first, end == long.MinValue ? long.MaxValue : end, offset);
    }

    private static int PassOf(Care care, Entity act)
    {
        for (var i = 0; i < care.Passes.Length; i++)
        {
            if (care.Passes[i].Anchor == act)
            {
                return i;
            }
        }

        return -1;
    }

    private static int FirstClosed(in Timeline timeline, Care care, in AirwaySpan airway)
    {
        for (var i = 0; i < care.Passes.Length; i++)
        {
            if (care.Passes[i].From >= airway.From && care.Passes[i].From < airway.To && !care.Passes[i].UseUnknown
                && HeldInSession.Of(Concepts.SuctionSystem, i, timeline, care, SuctionSystem.Open) is >= 0 and var system && timeline.Facts[system].Value.Symbol == Closed)
            {
                return i;
            }
        }

        return -1;
    }
}
