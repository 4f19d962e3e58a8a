using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>A stay: whose, where and when, and of what class.</summary>
internal static class EncounterReader
{
    public static void Read(Encounter encounter, Arrival arrival, Scribe scribe)
    {
        if (!PocoParts.IsUsable(encounter.StatusElement, scribe,
                ["arrived", "triaged", "in-progress", "onleave", "finished", "unknown"], ["planned", "cancelled"])
            || !PocoParts.TryPatient(encounter.Subject, scribe, out var patient)
            || !PocoParts.TryPeriod(encounter.Period, "period", scribe, out var from, out var to, out var offset))
        {
            return;
        }

        to = Raw.Text(encounter.StatusElement) == "finished" ? PocoParts.EndBy(arrival, from, to) : to;
        var frame = new Frame { About = scribe.Self, Encounter = scribe.Self, From = from, To = to, OffsetMinutes = offset };
        scribe.Link(LinkKind.EncounterOf, scribe.Self, patient, from, to);
        if (from > long.MinValue)
        {
            scribe.Fact(frame, 0, Concepts.EncounterPeriod, FactValue.Yes);
        }

        if (Raw.Text(encounter.Class?.CodeElement) is { Length: > 0 } stay)
        {
            scribe.Fact(frame, 0, Concepts.EncounterClass, FactValue.Code(Answers.Of(ClassOf(stay))), from == long.MinValue ? FactMarks.Timeless : FactMarks.None);
        }

        foreach (var location in encounter.Location)
        {
            if (Raw.Text(location.StatusElement) is "planned" or "reserved")
            {
                continue;
            }

            if (!PocoParts.TryPeriod(location.Period, "location.period", scribe, out var since, out var until, out _))
            {
                return;
            }

            var place = scribe.Target(PocoParts.Address(location.Location), "Location"u8, EntityKind.Place);
            scribe.Link(LinkKind.TakesPlaceAt, scribe.Self, place, Math.Max(since, from), Math.Min(until, to));
        }
    }

    // HL7 v3 ActCode: NONAC and OBSENC are stays in a bed like IMP and ACUTE.
    private static string ClassOf(string code) => code switch
    {
        "IMP" or "ACUTE" or "NONAC" or "OBSENC" => "inpatient",
        "EMER" => "emergency",
        _ => "elsewhere",
    };
}
