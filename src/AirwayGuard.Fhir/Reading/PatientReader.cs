using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The birth date, of any precision.</summary>
internal static class PatientReader
{
    public static void Read(Patient patient, Scribe scribe)
    {
        if (patient.BirthDateElement is null)
        {
            return;
        }

        if (FhirDate.TryRead(Encoding.UTF8.GetBytes(Raw.Text(patient.BirthDateElement) ?? ""), out var year, out var month, out var day, out var precision))
        {
            scribe.Fact(Frame.Timeless(scribe.Self), 0, Concepts.BirthDate, FactValue.Date(year, month, day, precision));
        }
        else
        {
            scribe.Problem(Codes.ValueUnreadable, "The birth date is not written as FHIR writes dates.");
        }
    }
}
