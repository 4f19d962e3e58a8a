using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>A device in use by a patient for a stretch of time.</summary>
internal static class DeviceUseReader
{
    public static void Read(DeviceUseStatement use, Arrival arrival, Scribe scribe)
    {
        if (!PocoParts.IsUsable(use.StatusElement, scribe, ["active", "completed", "stopped"], ["intended", "on-hold"])
            || !PocoParts.TryPatient(use.Subject, scribe, out var patient)
            || !TryTiming(use.Timing, scribe, out var from, out var to))
        {
            return;
        }

        if (Raw.Text(use.StatusElement) != "active")
        {
            to = PocoParts.EndBy(arrival, from, to);
        }

        var device = scribe.Target(PocoParts.Address(use.Device), "Device"u8, EntityKind.Device);
        scribe.Link(LinkKind.UsedBy, device, patient, from, to);
    }

    private static bool TryTiming(DataType? timing, Scribe scribe, out long from, out long to)
    {
        (from, to) = (long.MinValue, long.MaxValue);
        return timing switch
        {
            Period period => PocoParts.TryPeriod(period, "timing", scribe, out from, out to, out _),
            FhirDateTime start => EffectiveTime.TryRead(Encoding.UTF8.GetBytes(Raw.Text(start) ?? ""), "timing", scribe, out from, out _),
            _ => true,
        };
    }
}
