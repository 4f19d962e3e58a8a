using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>One occurrence as a DetectedIssue. Pure: the same message gives the same resource.</summary>
public static class DetectedIssueBuilder
{
    /// <param name="author">Reference to the author Device.</param>
    public static DetectedIssue Build(IssueMessage message, ResourceReference author)
    {
        ArgumentNullException.ThrowIfNull(message);
        return new DetectedIssue
        {
            Meta = WrittenText.MetaOf(message.RunMode),
            Text = Narratives.Of(Paragraphs(message)),
            Identifier = [new Identifier(WrittenSystems.Finding, message.Key.ToString("D"))],
            StatusElement = new Code<ObservationStatus>(StatusOf(message.Status)),
            Code = WrittenText.Check(message.Check, WrittenText.OrNull(message.Title)),
            Severity = WrittenText.SeverityOf(message.Severity),
            Patient = message.Patient is null ? null : new ResourceReference(message.Patient),
            Identified = new FhirDateTime(WrittenText.Instant(message.IdentifiedAt)),
            Author = author,
            Implicated = [.. message.Implicated.Select(reference => new ResourceReference(reference))],
            Evidence = [.. message.Evidence.Select(EvidenceOf)],
            Detail = WrittenText.OrNull(Detail(message)),
            Reference = Canonicals.Policy(message.Basis),
        };
    }

    private static ObservationStatus StatusOf(IssueStatus status) => status switch
    {
        IssueStatus.Final => ObservationStatus.Final,
        IssueStatus.Amended => ObservationStatus.Amended,
        IssueStatus.Corrected => ObservationStatus.Corrected,
        IssueStatus.EnteredInError => ObservationStatus.EnteredInError,
        _ => throw new ArgumentOutOfRangeException(nameof(status), status, "No such status."),
    };

    private static DetectedIssue.EvidenceComponent EvidenceOf(MessageEvidence item) => new()
    {
        Code = WrittenText.OrNull(item.Charted) is { } charted ? [new CodeableConcept { Text = charted }] : [],
        Detail = [new ResourceReference(item.Reference)],
    };

    private static string Detail(IssueMessage message) => WrittenText.Join(
    [
        message.Reason,
        message.Say,
        $"Happened {WrittenText.Time(message.EventAt)}.",
        message.Late ? WrittenText.KnownLate : "",
        WrittenText.OrNull(message.AgeBand) is { } band ? $"Age band: {band}." : "",
        message.Do,
        message.Estimate is { } estimate ? Wording.Estimate(estimate) : "",
        message.Sources.IsDefaultOrEmpty ? "" : $"Rests on: {string.Join("; ", message.Sources)}.",
        $"Check {message.Check}, rule set {message.Basis.RuleSet} {message.Basis.RuleSetVersion}.",
    ]);

    private static IEnumerable<string> Paragraphs(IssueMessage message)
    {
        if (message.Status == IssueStatus.EnteredInError)
        {
            yield return WrittenText.Join(["Withdrawn.", message.Reason]);
        }
        else if (WrittenText.OrNull(message.Reason) is { } reason)
        {
            yield return reason;
        }

        yield return WrittenText.Join([message.Title.Length > 0 ? message.Title + ":" : "", message.Say]);
        yield return WrittenText.Join([$"Happened {WrittenText.Time(message.EventAt)}, known {WrittenText.Time(message.IdentifiedAt)}.", message.Late ? WrittenText.KnownLate : ""]);
        foreach (var charted in WrittenText.Evidence(message.Evidence))
        {
            yield return charted;
        }

        if (WrittenText.OrNull(message.Do) is { } what)
        {
            yield return what;
        }

        if (message.Estimate is { } estimate)
        {
            yield return Wording.Estimate(estimate);
        }
    }
}
