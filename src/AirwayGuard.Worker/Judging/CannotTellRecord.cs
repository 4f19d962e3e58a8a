using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Judging;

/// <summary>The record of what could not be told: with what was lacking, and no message.</summary>
internal static class CannotTellRecord
{
    public static FindingRecord Of(FindingPlanItem item, Work work, MessageBasis basis) => item.CannotTell is { } one
        ? new FindingRecord(
            item.Key, FindingKind.CannotTell, one.Rule.Id, work.Patient, FindingState.Open, Guid.Empty, one.Count, one.At, one.Latest, false, work.UpTo, basis.BasisSha256,
            new FindingContent(item.Fingerprint, 1, one.Line, "", false, null, null)
            {
                Missing = one.Missing,
                CannotTellBasis = basis,
                Withheld = one.Rule.Mode == Mode.Live ? Withholding.None : Withholding.Silent,
            }.Write())
        : item.Prior! with
        {
            State = FindingState.Cleared,
            JudgedAt = work.UpTo,
            BasisSha256 = basis.BasisSha256,
            Content = (FindingContent.Read(item.Prior.Content.Span) with { Fingerprint = item.Fingerprint, CannotTellBasis = basis }).Write(),
        };
}
