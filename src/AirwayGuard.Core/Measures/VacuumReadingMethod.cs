using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>How a vacuum was read: with the tubing occluded, or while air flowed and the gauge fell.</summary>
public static class VacuumReadingMethod
{
    public static readonly Measure Measure = new(
        "vacuum-reading-method", Dimension.Code, Unit.None, [SubjectKind.Setting],
        [Concepts.VacuumPressure, Concepts.VacuumReadingMethod, Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(12), TimeSpan.Zero, ["occluded", "flowing"], MayBeMissing: false,
        "how the vacuum was read",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var setting = ref care.Settings[subject.Index];
        var (chosen, method, methodFact) = (-1, 0, -1);
        foreach (var index in Own.Facts(subject, care))
        {
            if (!SetValues.IsReading(care, timeline.Facts[index]))
            {
                continue;
            }

            var own = ReadingMethods.Of(timeline, care, index, out var from);
            if (chosen < 0 || IsWorse(own, method))
            {
                (chosen, method, methodFact) = (index, own, from);
            }
        }

        if (chosen < 0)
        {
            return;
        }

        ref readonly var reading = ref timeline.Facts[chosen];
        result.Uses(chosen);
        result.Charted = methodFact >= 0 && timeline.Facts[methodFact].Row == reading.Row ? methodFact : chosen;
        if (methodFact >= 0)
        {
            result.Uses(methodFact);
        }

        var mode = RegulatorModes.InForce(timeline, care, setting, out _);
        if (reading.Value.IsNumber && reading.Value.Amount == 0m && (mode == Answers.Off || mode == Answers.FullLine))
        {
            return;
        }

        result.Missing = setting.Lacks != Missing.Nothing ? setting.Lacks
            : reading.Value.IsNumber && reading.Value.Amount == 0m && mode == 0 ? Missing.RegulatorMode
            : method == 0 || method == Answers.MethodUnknown ? Missing.ReadingMethod
            : Missing.Nothing;
        if (result.Missing == Missing.Nothing)
        {
            result.Set(Answers.Code(method));
        }
    }

    // Of several readings at one instant one taken flowing counts, then one of which nobody says how.
    private static bool IsWorse(int method, int than) =>
        than != Answers.Flowing && (method == Answers.Flowing || (than == Answers.Occluded && method != Answers.Occluded));
}
