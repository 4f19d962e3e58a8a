using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.WriteBack;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// What became of our own Flags and DetectedIssues on the server: a Flag that is no longer active, an issue with a mitigation.
/// What still carries the digest of its content was left so by one of our own writes, and nothing is noted; for the rest the
/// version tells later whether a person did it.
/// </summary>
internal static class OwnResourceReader
{
    public static void Read(Flag flag, Scribe scribe)
    {
        if (Raw.Text(flag.StatusElement) is not "active" && !IsOurs(flag, scribe.Source))
        {
            Note(Concepts.FlagInactive, WrittenSystems.Flag, flag.Identifier, flag.Subject, scribe);
        }
    }

    public static void Read(DetectedIssue issue, Scribe scribe)
    {
        if (issue.Mitigation.Count > 0)
        {
            Note(Concepts.IssueMitigated, WrittenSystems.Finding, issue.Identifier, issue.Patient, scribe);
        }
    }

    // The version last confirmed is not enough: an answer may be lost, or a later write overtake what is only now read.
    private static bool IsOurs(Flag flag, string source) =>
        Uri.TryCreate(source, UriKind.Absolute, out var server) && server.Scheme is "http" or "https"
        && new ContentDigest(new FhirGate(server, [])).Fits(flag);

    private static void Note(Concept concept, string system, List<Identifier> identifiers, ResourceReference? subject, Scribe scribe)
    {
        var key = identifiers.FirstOrDefault(identifier => Raw.Text(identifier.SystemElement) == system);
        var patient = scribe.Target(PocoParts.Address(subject), "Patient"u8, EntityKind.Patient);
        if (key is null || patient.IsNone || Raw.Text(key.ValueElement) is not { Length: > 0 } value)
        {
            return;
        }

        var frame = Frame.Timeless(patient);
        frame.Group = scribe.Intern(EntityKind.GroupKey, Encoding.UTF8.GetBytes(value));
        scribe.Fact(frame, 0, concept, FactValue.Yes);
    }
}
