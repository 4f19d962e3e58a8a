using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Anchoring;

/// <summary>Anchors of the audit chain on the FHIR server. Every address goes through the client's gate.</summary>
public sealed class AuditAnchorStore(FhirHttp http)
{
    private const int MostPages = 10_000;

    /// <summary>Writes an anchor once, however often it is tried.</summary>
    /// <returns>Null if it is there now, else what stood in the way.</returns>
    public async Task<DiagnosticCode?> WriteAsync(AuditHead head, DateTimeOffset recorded, CancellationToken stop)
    {
        var answer = await http.CreateOnceAsync(
            AuditAnchorEvent.Build(head, recorded), "entity:identifier", AuditAnchorEvent.HeadSystem, AuditAnchorEvent.ValueOf(head), stop);
        return answer.IsDone ? null : answer.Code;
    }

    /// <summary>Every anchor on the server, in no order, each head once; null with the reason where they could not all be read.</summary>
    public async Task<(IReadOnlyList<AuditHead>? Heads, DiagnosticCode? Code)> ReadAsync(CancellationToken stop)
    {
        var heads = new HashSet<AuditHead>();
        var answer = await http.SearchAsync("AuditEvent", [("subtype", $"{AuditAnchorEvent.KindSystem}|{AuditAnchorEvent.AnchorKind}"), ("_count", "500")], stop);
        for (var page = 0; page < MostPages; page++)
        {
            if (!answer.IsDone || answer.Resource is not Bundle bundle)
            {
                return (null, answer.Code ?? Codes.NotFhir);
            }

            foreach (var audit in bundle.Entry.Select(entry => entry.Resource).OfType<AuditEvent>())
            {
                if (AuditAnchorEvent.TryRead(audit, out var head))
                {
                    heads.Add(head);
                }
            }

            if (bundle.NextLink is not { } next)
            {
                return ([.. heads], null);
            }

            answer = await http.PageAsync(next.OriginalString, stop);
        }

        return (null, Codes.AnswerTruncated);
    }
}
