using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether the ventilator is disconnected for a pass while lung injury is charted.</summary>
public static class DisconnectedInLungInjury
{
    public static readonly Measure Measure = new(
        "disconnected-in-lung-injury", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.VentilatorDisconnected, Concepts.LungInjury],
        TimeSpan.FromDays(400), TimeSpan.Zero, ["true", "false"], MayBeMissing: false,
        "the ventilator is disconnected for the pass while lung injury is charted; lung injury not charted counts as absent",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var (disconnected, unread) = (-1, -1);
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.VentilatorDisconnected && (fact.Value.Kind == ValueKind.Yes || (fact.Value.Kind == ValueKind.No && disconnected < 0)))
            {
                disconnected = index;
            }

            unread = fact.Concept == Concepts.VentilatorDisconnected && fact.Value.Kind == ValueKind.Unreadable ? index : unread;
        }

        if (disconnected < 0)
        {
            Unread(unread, subject, timeline, ref result);
            return;
        }

        result.Uses(disconnected);
        result.Charted = disconnected;
        if (timeline.Facts[disconnected].Value.Kind == ValueKind.No)
        {
            result.Set("false");
            return;
        }

        Circumstances.Take(Concepts.LungInjury, subject, timeline, ref result);
        if (result.Missing != Missing.Nothing)
        {
            return;
        }

        result.Set(result.Code == "yes" ? "true" : "false");
    }

    // Without lung injury it does not matter what the row says.
    private static void Unread(int disconnected, in Subject subject, in Timeline timeline, ref Measured result)
    {
        var injury = Measured.Start();
        Circumstances.Take(Concepts.LungInjury, subject, timeline, ref injury);
        if (disconnected >= 0 && injury.Code != "no")
        {
            result.Uses(disconnected);
            result.Missing = Missing.VentilatorDisconnected;
        }
    }
}
