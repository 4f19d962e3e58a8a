using System.Globalization;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>A device: its kind, its properties, whose it is and where it stands.</summary>
internal static class DeviceReader
{
    public static void Read(Device device, Desk desk)
    {
        // Device.status may be left out; a device is then taken to be there.
        var scribe = desk.Scribe;
        if (device.StatusElement is not null
            && !PocoParts.IsUsable(device.StatusElement, scribe, ["active", "inactive", "unknown"], []))
        {
            return;
        }

        var frame = Frame.Timeless(scribe.Self);
        AddKind(device, frame, scribe);

        desk.Row.Begin();
        ushort ordinal = 0;
        foreach (var property in device.Property.Take(ushort.MaxValue))
        {
            ordinal++;
            if (PocoParts.TryMeaningOfValue(property.Type, string.Create(CultureInfo.InvariantCulture, $"property[{ordinal - 1}].type"), desk, out var mapping, out var coding))
            {
                var charted = Charted(property, mapping.Concept);
                if (PocoParts.TryValue(charted, mapping, coding, desk, out var read))
                {
                    scribe.Facts(At(frame, charted, mapping.Concept), ordinal, mapping.Concept, read, PocoParts.Marks(mapping, read), device.Property.Count);
                }
            }
        }

        // An inactive record says nothing of where the device is now.
        if (Raw.Text(device.StatusElement) != "inactive")
        {
            scribe.Link(LinkKind.UsedBy, scribe.Self, scribe.Target(PocoParts.Address(device.Patient), "Patient"u8, EntityKind.Patient));
        }

        scribe.Link(LinkKind.StandsAt, scribe.Self, scribe.Target(PocoParts.Address(device.Location), "Location"u8, EntityKind.Place));
    }

    // Of two different kinds nobody knows which it is.
    private static void AddKind(Device device, in Frame frame, Scribe scribe)
    {
        DeviceKinds.TellUnknown(device.Type, "type", scribe);
        var kinds = DeviceKinds.Of(device.Type, scribe);
        if (kinds.Count > 1)
        {
            scribe.Problem(Codes.AnswersDiffer, "The codings of the device's type stand for different kinds.");
        }
        else if (kinds.Count == 1)
        {
            scribe.Fact(frame, 0, Concepts.DeviceKind, FactValue.Code(kinds[0]));
        }
    }

    // A calibration charted to the minute happened then.
    private static Frame At(in Frame frame, DataType? charted, Concept concept) =>
        concept == Concepts.CalibratedOn && charted is FhirDateTime moment
        && FhirTime.Read(Encoding.UTF8.GetBytes(Raw.Text(moment) ?? ""), out var ticks, out var offset) == TimeForm.Exact
            ? new Frame { About = frame.About, From = ticks, To = ticks, OffsetMinutes = offset }
            : frame;

    // A property has quantities and codes only; a date stands as the text of a code.
    private static DataType? Charted(Device.PropertyComponent property, Concept concept)
    {
        DataType? charted = property.ValueQuantity.Count > 0 ? property.ValueQuantity[0] : CodeOf(property);
        return concept == Concepts.CalibratedOn && charted is CodeableConcept text
            ? new FhirDateTime { JsonValue = Raw.Text(text.TextElement) ?? Raw.Text(text.Coding.FirstOrDefault()?.CodeElement) }
            : charted;
    }

    // Several codes of one property are several codings of one answer.
    private static CodeableConcept? CodeOf(Device.PropertyComponent property) => property.ValueCode.Count <= 1
        ? property.ValueCode.FirstOrDefault()
        : new CodeableConcept { Coding = [.. property.ValueCode.SelectMany(code => code.Coding)], TextElement = property.ValueCode[0].TextElement };
}
