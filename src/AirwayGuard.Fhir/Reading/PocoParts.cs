using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Parts that several types share.</summary>
internal static class PocoParts
{
    /// <summary><c>system|value</c>; empty where there is no value.</summary>
    public static string Key(Identifier? identifier) =>
        Raw.Text(identifier?.ValueElement) is { Length: > 0 } value ? Raw.Text(identifier?.SystemElement) + "|" + value : "";

    public static string? Address(ResourceReference? reference) => Raw.Text(reference?.ReferenceElement);

    /// <summary>The patient a resource is about; tells where there is none.</summary>
    public static bool TryPatient(ResourceReference? subject, Scribe scribe, out Entity patient)
    {
        patient = scribe.Target(Address(subject), "Patient"u8, EntityKind.Patient);
        if (patient.IsNone)
        {
            scribe.Unreadable(Codes.NoSubject, "The resource names no patient by a literal reference.");
        }

        return !patient.IsNone;
    }

    /// <summary>True where the status is one that is used; tells of an entry in error and of a status that is missing or not known.</summary>
    public static bool IsUsable(PrimitiveType? status, Scribe scribe, ReadOnlySpan<string> used, ReadOnlySpan<string> passedOver)
    {
        var code = Raw.Text(status) ?? "";
        if (used.Contains(code))
        {
            return true;
        }

        if (code == "entered-in-error")
        {
            scribe.Problem(Codes.EnteredInError, "The resource is entered in error.");
        }
        else if (!passedOver.Contains(code))
        {
            scribe.Problem(Codes.StatusUnknown, "The resource has no status, or none that says it holds.");
        }

        return false;
    }

    /// <summary>From and to of a period; what is not given is open. False, and told, for a time that is no instant.</summary>
    /// <param name="offsetMinutes">Offset of the start, else of the end.</param>
    public static bool TryPeriod(Period? period, string element, Scribe scribe, out long from, out long to, out short offsetMinutes)
    {
        (from, to, offsetMinutes) = (long.MinValue, long.MaxValue, 0);
        if (Raw.Text(period?.EndElement) is { Length: > 0 } end
            && !EffectiveTime.TryRead(Encoding.UTF8.GetBytes(end), element, scribe, out to, out offsetMinutes))
        {
            return false;
        }

        if (Raw.Text(period?.StartElement) is { Length: > 0 } start
            && !EffectiveTime.TryRead(Encoding.UTF8.GetBytes(start), element, scribe, out from, out offsetMinutes))
        {
            return false;
        }

        if (to < from)
        {
            scribe.Unreadable(Codes.NoTime, $"The {element} ends before it starts.");
        }

        return to >= from;
    }

    /// <summary>A resource that says it is over and gives no end was over when it became known.</summary>
    public static long EndBy(Arrival arrival, long from, long to) =>
        to == long.MaxValue && arrival.KnownAt.UtcTicks > Math.Max(from, DateTimeOffset.UnixEpoch.UtcTicks) ? arrival.KnownAt.UtcTicks : to;

    /// <summary>What codings mean as a row; the row then holds them alone.</summary>
    public static bool TryMeaning(CodeableConcept? code, Desk desk, out RowMapping mapping, out ChartedCoding coding) =>
        RowMeaning.TryFind(desk.Row, PocoRow.Codings(desk.Row, code), desk.Scribe.Map, out mapping, out coding, out _);

    /// <summary>The same where a value stands under the codings: tells where they mean different things, or hold a code of ours that does not exist.</summary>
    /// <param name="path">Where the codings stand in the resource.</param>
    public static bool TryMeaningOfValue(CodeableConcept? code, string path, Desk desk, out RowMapping mapping, out ChartedCoding coding)
    {
        var codes = PocoRow.Codings(desk.Row, code);
        var isFound = RowMeaning.TryFind(desk.Row, codes, desk.Scribe.Map, out mapping, out coding, out var other);
        RowMeaning.TellUnknown(desk.Row, codes, path, desk.Scribe);
        if (other is { } another)
        {
            desk.Scribe.Problem(Codes.CodingsDiffer, $"The codings at {path} mean {mapping.Concept.Code} and {another.Code}.");
        }

        return isFound && other is null;
    }

    /// <summary>Reads a value that stands under a code and tells what is wrong with it.</summary>
    public static bool TryValue(DataType? charted, in RowMapping mapping, in ChartedCoding coding, Desk desk, out ReadValue read)
    {
        var value = new ChartedValue();
        PocoRow.FillValue(charted, desk.Row, ref value);
        read = ValueReader.Read(desk.Row, value, mapping, desk.Scribe.Map, RowMeaning.CodeOf(desk.Row, coding, desk.Scribe).Key);
        if (read.Problem is not null)
        {
            desk.Scribe.Problem(read.Problem, read.Why);
        }

        return read.HasFact;
    }

    public static FactMarks Marks(in RowMapping mapping, in ReadValue read) =>
        read.Marks | (mapping.IsSetting ? FactMarks.Setting : FactMarks.None) | (mapping.IsInexact ? FactMarks.Inexact : FactMarks.None);
}
