using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.WriteBack;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// What became of our own Flags and DetectedIssues on the server: a Flag that is no longer active, an issue with a mitigation.
/// Whether a person did it is told later, by the version.
/// </summary>
internal static class OwnResourceReader
{
    public static void Read(Flag flag, Scribe scribe)
    {
        if (Raw.Text(flag.StatusElement) is not "active")
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
