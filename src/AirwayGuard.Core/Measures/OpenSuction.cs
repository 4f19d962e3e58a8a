using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// What is measured only of suction with an open system. Where nobody says open or closed, a value over the limit leaves it open
/// and one within it does not matter.
/// </summary>
internal static class OpenSuction
{
    /// <param name="value">Index of the fact that gives the value; −1 where none is charted.</param>
    /// <returns>True where the value is to be set; else all is said.</returns>
    public static bool IsJudged(in Subject subject, in Timeline timeline, Care care, int value, Missing lacking, ref Measured result)
    {
        var isRow = subject.Kind == SubjectKind.Support;
        var isClosed = isRow ? false : SuctionSystem.IsClosed(subject, timeline, care, ref result);
        if (isClosed is null && subject.Kind == SubjectKind.Order)
        {
            // An order that names no system asks for none; its passes are judged.
            return false;
        }

        // An order is no suction yet, so it ends nothing.
        result.Clearing = subject.Kind == SubjectKind.Order || isClosed is null ? ClearingStrength.Never : ClearingStrength.Full;
        if (isClosed == true)
        {
            result.Charted = result.Count > 0 ? result.FactAt(0) : -1;
            result.Set(0m, lacking == Missing.Peep ? Unit.CmH2O : Unit.One);
            return false;
        }

        if (value < 0)
        {
            result.Missing = isClosed is null ? Missing.Nothing : lacking;
            return false;
        }

        result.BreachIs = isClosed is null ? Missing.SuctionSystem : Missing.Nothing;
        result.Uses(value);
        result.Charted = isRow ? care.SupportRows[subject.Index] : value;
        return true;
    }
}
