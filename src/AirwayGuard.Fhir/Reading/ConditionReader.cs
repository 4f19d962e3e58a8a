using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>A circumstance that the judging knows, where a map says that the condition is one.</summary>
internal static class ConditionReader
{
    public static void Read(Condition condition, Desk desk)
    {
        var scribe = desk.Scribe;
        desk.Row.Begin();
        if (!PocoParts.TryMeaning(condition.Code, desk, out var mapping, out _) || !IsCircumstance(mapping.Concept))
        {
            return;
        }

        if (Has(condition.VerificationStatus, "entered-in-error"))
        {
            scribe.Problem(Core.Diagnostics.Codes.EnteredInError, "The resource is entered in error.");
            return;
        }

        if (Has(condition.VerificationStatus, "refuted") || !PocoParts.TryPatient(condition.Subject, scribe, out var patient))
        {
            return;
        }

        var end = Instant(condition.Abatement is Period over ? over.StartElement : condition.Abatement as FhirDateTime);
        if (end is null && (condition.Abatement is not null || Has(condition.ClinicalStatus, "inactive") || Has(condition.ClinicalStatus, "remission")
            || Has(condition.ClinicalStatus, "resolved")))
        {
            return;
        }

        // A date alone is no instant: the condition then holds from when it was recorded, else from ever.
        var start = Instant(condition.Onset is Period since ? since.StartElement : condition.Onset as FhirDateTime) ?? Instant(condition.RecordedDateElement);
        var frame = new Frame
        {
            About = patient,
            Encounter = scribe.Target(PocoParts.Address(condition.Encounter), "Encounter"u8, EntityKind.Encounter),
            From = start?.Ticks ?? long.MinValue,
            To = end?.Ticks ?? long.MaxValue,
            OffsetMinutes = start?.Offset ?? 0,
            Marks = start is null ? FactMarks.Timeless : FactMarks.None,
        };
        scribe.Fact(frame, 0, mapping.Concept, FactValue.Yes);
    }

    private static bool IsCircumstance(Concept concept) =>
        concept == Concepts.IntracranialPressureMonitored || concept == Concepts.LungInjury || concept == Concepts.BleedingRisk;

    private static bool Has(CodeableConcept? status, string code) => status?.Coding.Exists(coding => Raw.Text(coding.CodeElement) == code) == true;

    private static (long Ticks, short Offset)? Instant(PrimitiveType? moment) =>
        FhirTime.Read(Encoding.UTF8.GetBytes(Raw.Text(moment) ?? ""), out var ticks, out var offset) == TimeForm.Exact ? (ticks, offset) : null;
}
