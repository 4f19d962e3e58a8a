using System.Text.Json;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Reads an Observation from its bytes, allocating nothing per row. It takes only what it knows to be plain: anything else
/// (contained resources, modifier extensions, members given twice or unknown, nulls, values of a wrong form, escapes in what
/// is read) it leaves to <see cref="PocoRow"/>, which reads the same bytes with the SDK.
/// </summary>
internal static class RowReader
{
    /// <summary>Fills the row; false where the row is not plain and must be read the long way.</summary>
    /// <exception cref="JsonException">The bytes are not one well-formed JSON value.</exception>
    public static bool TryFill(ReadOnlyMemory<byte> body, ObservationRow row)
    {
        row.Begin(body);
        var reader = new Utf8JsonReader(body.Span);
        var own = new ChartedValue();
        ulong seen = 0;
        var values = 0;
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = ObservationMembers.Find(reader.ValueSpan);
            if (member == ObservationMember.Unknown || (seen & (1UL << (int)member)) != 0)
            {
                return false;
            }

            seen |= 1UL << (int)member;
            values += ObservationMembers.IsValue(member) ? 1 : 0;
            if (!reader.Read() || values > 1 || !TryMember(ref reader, member, row, ref own))
            {
                return false;
            }
        }

        // Components may stand before the row's own value; ordinals tell them apart.
        row.Values.Add(own);
        return !reader.Read();
    }

    private static bool TryMember(ref Utf8JsonReader reader, ObservationMember member, ObservationRow row, ref ChartedValue own)
    {
        switch (member)
        {
            case ObservationMember.ResourceType:
                return reader.TokenType == JsonTokenType.String && reader.ValueTextEquals("Observation"u8);
            case ObservationMember.Id:
                return RowParts.TryText(ref reader, out row.Id);
            case ObservationMember.Status:
                return RowParts.TryText(ref reader, out row.Status);
            case ObservationMember.Meta:
                return RowParts.TryMeta(ref reader, row);
            case ObservationMember.Identifier:
                return RowParts.TryIdentifiers(ref reader, row);
            case ObservationMember.Subject:
                return RowParts.TryReference(ref reader, out row.Subject);
            case ObservationMember.Encounter:
                return RowParts.TryReference(ref reader, out row.Encounter);
            case ObservationMember.Device:
                return RowParts.TryReference(ref reader, out row.Device);
            case ObservationMember.PartOf:
                return RowParts.TryReferences(ref reader, row.PartOf);
            case ObservationMember.HasMember:
                return RowParts.TryReferences(ref reader, row.HasMember);
            case ObservationMember.Focus:
                return RowParts.TryReferences(ref reader, row.Focus);
            case ObservationMember.BasedOn:
                return RowParts.TryReferences(ref reader, row.BasedOn);
            case ObservationMember.EffectiveDateTime or ObservationMember.EffectiveInstant:
                return row.Effective == EffectiveForm.None && (row.Effective = EffectiveForm.Instant) == EffectiveForm.Instant
                    && RowParts.TryText(ref reader, out row.From);
            case ObservationMember.EffectivePeriod:
                return row.Effective == EffectiveForm.None && (row.Effective = EffectiveForm.Period) == EffectiveForm.Period
                    && RowParts.TryPeriod(ref reader, row);
            case ObservationMember.Component:
                return RowParts.TryComponents(ref reader, row);
            case ObservationMember.Code:
                return RowParts.TryConcept(ref reader, row, out own.Code, out _);
            case ObservationMember.DataAbsentReason:
                return RowParts.TryAbsent(ref reader, row, ref own);
            default:
                return ObservationMembers.IsValue(member)
                    ? RowParts.TryValue(ref reader, member, row, ref own)
                    : PlainSkip.TrySkip(ref reader);
        }
    }
}
