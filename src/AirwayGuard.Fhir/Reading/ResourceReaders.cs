using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The types that are read through the SDK, and what all of them have in common.</summary>
internal static class ResourceReaders
{
    public static bool IsRead(string type) => type is "Observation" or "Patient" or "Encounter" or "Location" or "Device"
        or "DeviceUseStatement" or "DeviceMetric" or "Procedure" or "ServiceRequest" or "DeviceRequest" or "Condition"
        or "Flag" or "DetectedIssue";

    public static void Read(Resource resource, Arrival arrival, Desk desk)
    {
        if (resource is Observation observation)
        {
            PocoRow.Fill(observation, desk.Row);
            ObservationMapper.Map(desk.Row, desk.Scribe);
            return;
        }

        var scribe = desk.Scribe;
        scribe.IsAbout(Encoding.UTF8.GetBytes(resource.TypeName), Encoding.UTF8.GetBytes(Raw.Text(resource.IdElement) ?? ""));
        scribe.Into.Identifier = FirstIdentifier(resource);
        if (resource is DomainResource { ModifierExtension.Count: > 0 })
        {
            scribe.Problem(Codes.ModifierUnknown, "The resource carries a modifier extension.");
        }
        else if (Raw.IsTestData(resource))
        {
            scribe.Problem(Codes.TestData, "The resource carries the security label HTEST.");
        }
        else
        {
            ReadType(resource, arrival, desk);
            TellUnknownCode(resource, desk);
        }
    }

    private static void TellUnknownCode(Resource resource, Desk desk)
    {
        var code = resource switch
        {
            Procedure procedure => procedure.Code,
            ServiceRequest order => order.Code,
            DeviceRequest order => order.Code as CodeableConcept,
            Condition condition => condition.Code,
            _ => null,
        };
        if (code is not null && desk.Scribe.Into.Readable)
        {
            desk.Row.Begin();
            RowMeaning.TellUnknown(desk.Row, PocoRow.Codings(desk.Row, code), "code", desk.Scribe);
        }
    }

    private static void ReadType(Resource resource, Arrival arrival, Desk desk)
    {
        switch (resource)
        {
            case Patient patient:
                PatientReader.Read(patient, desk.Scribe);
                break;
            case Encounter encounter:
                EncounterReader.Read(encounter, arrival, desk.Scribe);
                break;
            case Device device:
                DeviceReader.Read(device, desk);
                break;
            case DeviceUseStatement use:
                DeviceUseReader.Read(use, arrival, desk.Scribe);
                break;
            case DeviceMetric metric:
                DeviceMetricReader.Read(metric, desk);
                break;
            case Procedure procedure:
                ProcedureReader.Read(procedure, desk);
                break;
            case ServiceRequest order:
                ServiceRequestReader.Read(order, arrival, desk);
                break;
            case DeviceRequest order:
                DeviceRequestReader.Read(order, arrival, desk);
                break;
            case Condition condition:
                ConditionReader.Read(condition, desk);
                break;
            case Flag flag:
                OwnResourceReader.Read(flag, desk.Scribe);
                break;
            case DetectedIssue issue:
                OwnResourceReader.Read(issue, desk.Scribe);
                break;
            default:
                // A Location is only what links name.
                break;
        }
    }

    private static string FirstIdentifier(Resource resource)
    {
        List<Identifier> identifiers = resource switch
        {
            Patient patient => patient.Identifier,
            Encounter encounter => encounter.Identifier,
            Location location => location.Identifier,
            Device device => device.Identifier,
            DeviceUseStatement use => use.Identifier,
            DeviceMetric metric => metric.Identifier,
            Procedure procedure => procedure.Identifier,
            ServiceRequest order => order.Identifier,
            DeviceRequest order => order.Identifier,
            Condition condition => condition.Identifier,
            _ => [],
        };
        return identifiers.Select(PocoParts.Key).FirstOrDefault(key => key.Length > 0) ?? "";
    }
}
