using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// What is structured in an order goes before its text. Where the text says otherwise that shows no order to be within: what it says may have been meant.
/// </summary>
internal static class OrderTexts
{
    /// <param name="structured">What it is by what is structured.</param>
    public static Verdict Beside(in Timeline timeline, Care care, Rule rule, in BandChoice age, in JudgeSettings settings, in Verdict structured)
    {
        if (structured.Subject.Kind != SubjectKind.Order || care.Orders[structured.Subject.Index].OverruledCount == 0
            || structured.Outcome is not (Outcome.Pass or Outcome.NotApplicable) || rule.Criteria[0].Measure.AsksOfCharting)
        {
            return structured;
        }

        care.ReadsOverruled = true;
        var asWritten = Judge.JudgeCriteria(timeline, care, rule, age, settings, structured with { Outcome = Outcome.NotApplicable });
        care.ReadsOverruled = false;
        return asWritten.Outcome is Outcome.Breach or Outcome.CannotTell ? asWritten with { Outcome = Outcome.CannotTell, Missing = Missing.OrderSaysTwo } : structured;
    }
}
