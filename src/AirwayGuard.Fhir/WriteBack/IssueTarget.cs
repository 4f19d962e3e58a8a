using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>A DetectedIssue on its way. One that carries a mitigation or another's version is only ever marked corrected.</summary>
internal sealed class IssueTarget(IssueMessage message, ResourceReference author)
    : WriteTarget(WrittenSystems.Finding, message.Key, DetectedIssueBuilder.Build(message, author), message.Basis, message.RunMode)
{
    public override ResourceReference? SubjectOf(Resource resource) => ((DetectedIssue)resource).Patient;

    public override bool Withdraws => message.Status == IssueStatus.EnteredInError;

    public override IEnumerable<string> Sources => message.Evidence.Select(item => item.Reference);

    public override IEnumerable<string> SourcesOf(Resource standing) =>
        ((DetectedIssue)standing).Evidence.SelectMany(item => item.Detail).Select(detail => detail.Reference).OfType<string>();

    public override bool IsEndedByPerson(Resource standing) => ((DetectedIssue)standing).Mitigation.Count > 0;

    // It answers nothing, and nobody would notice where nothing is to be written: it stays deleted, and the Flag stands.
    public override bool DeletionEnds => false;

    public override bool HoldsOthersWork(Resource standing) => base.HoldsOthersWork(standing) || IsEndedByPerson(standing);

    public override void TakeBack(Resource copy)
    {
        var issue = (DetectedIssue)copy;
        issue.StatusElement = new Code<ObservationStatus>(ObservationStatus.EnteredInError);
        Narratives.Append(issue, SecondCopy);
    }

    public override bool TryEnd(Resource standing)
    {
        var issue = (DetectedIssue)standing;
        if (!Withdraws || issue.StatusElement?.JsonValue is "corrected" or "entered-in-error" or "cancelled")
        {
            return false;
        }

        var reason = WrittenText.Join(["Corrected.", message.Reason]);
        issue.StatusElement = new Code<ObservationStatus>(ObservationStatus.Corrected);
        issue.Detail = WrittenText.Join([issue.DetailElement?.JsonValue as string ?? "", reason]);
        Narratives.Append(issue, reason);
        return true;
    }
}
