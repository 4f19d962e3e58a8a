using System.Text.Json;

namespace AirwayGuard.Benchmarks.RowReading;

/// <summary>
/// The least that has to be taken from an Observation to know what was charted: nine fields by one walk over the bytes, with no
/// judgement of what they mean. The baseline of the row reader.
/// </summary>
internal struct NineFields
{
    public string? Id, Status, CodeSystem, Code, Subject, Effective, Unit, Version;
    public decimal Value;

    public static NineFields Read(ReadOnlySpan<byte> body)
    {
        var fields = default(NineFields);
        var reader = new Utf8JsonReader(body);
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("id"u8))
            {
                fields.Id = Text(ref reader);
            }
            else if (reader.ValueTextEquals("status"u8))
            {
                fields.Status = Text(ref reader);
            }
            else if (reader.ValueTextEquals("effectiveDateTime"u8))
            {
                fields.Effective = Text(ref reader);
            }
            else if (reader.ValueTextEquals("meta"u8))
            {
                ReadWithin(ref reader, ref fields, Part.Meta);
            }
            else if (reader.ValueTextEquals("code"u8))
            {
                ReadWithin(ref reader, ref fields, Part.Code);
            }
            else if (reader.ValueTextEquals("subject"u8))
            {
                ReadWithin(ref reader, ref fields, Part.Subject);
            }
            else if (reader.ValueTextEquals("valueQuantity"u8))
            {
                ReadWithin(ref reader, ref fields, Part.Quantity);
            }
            else
            {
                reader.Read();
                reader.Skip();
            }
        }

        return fields;
    }

    private enum Part
    {
        Meta, Code, Subject, Quantity,
    }

    private static string? Text(ref Utf8JsonReader reader)
    {
        reader.Read();
        return reader.GetString();
    }

    private static void ReadWithin(ref Utf8JsonReader reader, ref NineFields fields, Part part)
    {
        reader.Read();
        var depth = reader.CurrentDepth;
        while (reader.Read() && reader.CurrentDepth > depth)
        {
            if (reader.TokenType != JsonTokenType.PropertyName)
            {
                continue;
            }

            if (part == Part.Meta && reader.ValueTextEquals("versionId"u8))
            {
                fields.Version = Text(ref reader);
            }
            else if (part == Part.Code && fields.CodeSystem is null && reader.ValueTextEquals("system"u8))
            {
                fields.CodeSystem = Text(ref reader);
            }
            else if (part == Part.Code && fields.Code is null && reader.ValueTextEquals("code"u8))
            {
                fields.Code = Text(ref reader);
            }
            else if (part == Part.Subject && reader.ValueTextEquals("reference"u8))
            {
                fields.Subject = Text(ref reader);
            }
            else if (part == Part.Quantity && reader.ValueTextEquals("unit"u8))
            {
                fields.Unit = Text(ref reader);
            }
            else if (part == Part.Quantity && reader.ValueTextEquals("value"u8))
            {
                reader.Read();
                fields.Value = reader.GetDecimal();
            }
        }
    }
}
