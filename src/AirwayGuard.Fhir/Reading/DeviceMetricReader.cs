using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What a device measures or is set to, and when it was calibrated.</summary>
internal static class DeviceMetricReader
{
    public static void Read(DeviceMetric metric, Desk desk)
    {
        var scribe = desk.Scribe;
        if (metric.OperationalStatusElement is not null
            && !PocoParts.IsUsable(metric.OperationalStatusElement, scribe, ["on", "off", "standby"], []))
        {
            return;
        }

        var device = scribe.Target(PocoParts.Address(metric.Source), "Device"u8, EntityKind.Device);
        device = device.IsNone ? scribe.Target(PocoParts.Address(metric.Parent), "Device"u8, EntityKind.Device) : device;
        scribe.Link(LinkKind.MetricOf, scribe.Self, device);

        var frame = Frame.Timeless(scribe.Self);
        if (Answers.TryFind(Concepts.MetricCategory, Raw.Text(metric.CategoryElement) ?? "", out var category))
        {
            scribe.Fact(frame, 0, Concepts.MetricCategory, FactValue.Code(category));
        }

        desk.Row.Begin();
        if (PocoParts.TryMeaningOfValue(metric.Type, "type", desk, out var mapping, out _)
            && Answers.TryFind(Concepts.MetricMeans, mapping.Concept.Code, out var meaning))
        {
            scribe.Fact(frame, 0, Concepts.MetricMeans, FactValue.Code(meaning));
        }

        ushort ordinal = 0;
        foreach (var calibration in metric.Calibration.Take(ushort.MaxValue))
        {
            ordinal++;
            if (calibration.TimeElement is not null && Raw.Text(calibration.StateElement) is null or "calibrated" or "unspecified")
            {
                AddCalibration(calibration, ordinal, scribe);
            }
        }
    }

    private static void AddCalibration(DeviceMetric.CalibrationComponent calibration, ushort ordinal, Scribe scribe)
    {
        var time = Encoding.UTF8.GetBytes(Raw.Text(calibration.TimeElement) ?? "");
        if (FhirTime.Read(time, out var ticks, out var offset) == TimeForm.Exact
            && FhirDate.TryRead(time.AsSpan(0, 10), out var year, out var month, out var day, out var precision))
        {
            var frame = new Frame { About = scribe.Self, From = ticks, To = ticks, OffsetMinutes = offset };
            scribe.Fact(frame, ordinal, Concepts.CalibratedOn, FactValue.Date(year, month, day, precision));
        }
        else
        {
            scribe.Problem(Codes.TimeWithoutOffset, "A calibration's time has no offset, or is not written as FHIR writes times.");
        }
    }
}
