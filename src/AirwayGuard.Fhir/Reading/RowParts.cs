using System.Buffers.Text;
using System.Text.Json;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Reads the parts of an Observation at the reader's place; each answers false where the part is not plain.</summary>
internal static class RowParts
{
    public static bool TryText(ref Utf8JsonReader reader, out Slice text)
    {
        text = default;
        if (reader.TokenType != JsonTokenType.String || reader.ValueIsEscaped)
        {
            return false;
        }

        text = new Slice((int)reader.TokenStartIndex + 1, reader.ValueSpan.Length);
        return true;
    }

    public static bool TryMeta(ref Utf8JsonReader reader, ObservationRow row)
    {
        var seen = 0;
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = Member(ref reader, "security"u8, "versionId"u8, "lastUpdated"u8, "source"u8, "profile"u8, "tag"u8, "extension"u8, "id"u8);
            if (!Once(member, ref seen) || !reader.Read())
            {
                return false;
            }

            var first = row.Codings.Count;
            if (member == 0 ? !TryCodings(ref reader, row) : !PlainSkip.TrySkip(ref reader))
            {
                return false;
            }

            for (var i = first; i < row.Codings.Count; i++)
            {
                row.IsTestData |= row[row.Codings[i].Code].SequenceEqual("HTEST"u8);
            }
        }

        return true;
    }

    public static bool TryIdentifiers(ref Utf8JsonReader reader, ObservationRow row)
    {
        if (reader.TokenType != JsonTokenType.StartArray)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.StartObject)
        {
            var seen = 0;
            Slice system = default, value = default;
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var member = Member(ref reader, "system"u8, "value"u8, "use"u8, "type"u8, "period"u8, "assigner"u8, "extension"u8, "id"u8);
                if (!Once(member, ref seen) || !reader.Read()
                    || !(member switch { 0 => TryText(ref reader, out system), 1 => TryText(ref reader, out value), _ => PlainSkip.TrySkip(ref reader) }))
                {
                    return false;
                }
            }

            if (row.IdentifierValue.IsEmpty && !value.IsEmpty)
            {
                (row.IdentifierSystem, row.IdentifierValue) = (system, value);
            }
        }

        return reader.TokenType == JsonTokenType.EndArray;
    }

    public static bool TryReference(ref Utf8JsonReader reader, out Slice reference)
    {
        reference = default;
        var seen = 0;
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = Member(ref reader, "reference"u8, "display"u8, "type"u8, "identifier"u8, "extension"u8, "id"u8);
            if (!Once(member, ref seen) || !reader.Read()
                || !(member == 0 ? TryText(ref reader, out reference) : PlainSkip.TrySkip(ref reader)))
            {
                return false;
            }
        }

        return true;
    }

    public static bool TryReferences(ref Utf8JsonReader reader, List<Slice> references)
    {
        if (reader.TokenType != JsonTokenType.StartArray)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.StartObject)
        {
            if (!TryReference(ref reader, out var reference))
            {
                return false;
            }

            references.Add(reference);
        }

        return reader.TokenType == JsonTokenType.EndArray;
    }

    public static bool TryPeriod(ref Utf8JsonReader reader, ObservationRow row)
    {
        var seen = 0;
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = Member(ref reader, "start"u8, "end"u8, "extension"u8, "id"u8);
            if (!Once(member, ref seen) || !reader.Read()
                || !(member switch { 0 => TryText(ref reader, out row.From), 1 => TryText(ref reader, out row.To), _ => PlainSkip.TrySkip(ref reader) }))
            {
                return false;
            }
        }

        return true;
    }

    public static bool TryComponents(ref Utf8JsonReader reader, ObservationRow row)
    {
        if (reader.TokenType != JsonTokenType.StartArray)
        {
            return false;
        }

        ushort ordinal = 0;
        while (reader.Read() && reader.TokenType == JsonTokenType.StartObject)
        {
            if (ordinal == ushort.MaxValue || !TryComponent(ref reader, row, ++ordinal))
            {
                return false;
            }
        }

        return reader.TokenType == JsonTokenType.EndArray;
    }

    private static bool TryComponent(ref Utf8JsonReader reader, ObservationRow row, ushort ordinal)
    {
        var component = new ChartedValue { Ordinal = ordinal };
        ulong seen = 0;
        var values = 0;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = ObservationMembers.Find(reader.ValueSpan);
            if (!ObservationMembers.IsOfComponent(member) || (seen & (1UL << (int)member)) != 0 || !reader.Read())
            {
                return false;
            }

            seen |= 1UL << (int)member;
            values += ObservationMembers.IsValue(member) ? 1 : 0;
            if (values > 1 || !(member switch
            {
                ObservationMember.Code => TryConcept(ref reader, row, out component.Code, out _),
                ObservationMember.DataAbsentReason => TryAbsent(ref reader, row, ref component),
                _ when ObservationMembers.IsValue(member) => TryValue(ref reader, member, row, ref component),
                _ => PlainSkip.TrySkip(ref reader),
            }))
            {
                return false;
            }
        }

        row.Values.Add(component);
        return true;
    }

    public static bool TryAbsent(ref Utf8JsonReader reader, ObservationRow row, ref ChartedValue value)
    {
        value.IsAbsent = true;
        if (!TryConcept(ref reader, row, out var reasons, out _))
        {
            return false;
        }

        foreach (var reason in row.In(reasons))
        {
            value.IsNotPerformed |= row[reason.Code].SequenceEqual("not-performed"u8);
        }

        return true;
    }

    public static bool TryConcept(ref Utf8JsonReader reader, ObservationRow row, out Stretch codings, out Slice text)
    {
        codings = default;
        text = default;
        var seen = 0;
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = Member(ref reader, "coding"u8, "text"u8, "extension"u8, "id"u8);
            if (!Once(member, ref seen) || !reader.Read())
            {
                return false;
            }

            var first = row.Codings.Count;
            if (!(member switch { 0 => TryCodings(ref reader, row), 1 => TryText(ref reader, out text), _ => PlainSkip.TrySkip(ref reader) }))
            {
                return false;
            }

            if (member == 0)
            {
                codings = new Stretch(first, row.Codings.Count - first);
            }
        }

        return true;
    }

    private static bool TryCodings(ref Utf8JsonReader reader, ObservationRow row)
    {
        if (reader.TokenType != JsonTokenType.StartArray)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.StartObject)
        {
            var seen = 0;
            Slice system = default, code = default, display = default;
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var member = Member(ref reader, "system"u8, "code"u8, "display"u8, "version"u8, "userSelected"u8, "extension"u8, "id"u8);
                if (!Once(member, ref seen) || !reader.Read() || !(member switch
                {
                    0 => TryText(ref reader, out system),
                    1 => TryText(ref reader, out code),
                    2 => TryText(ref reader, out display),
                    _ => PlainSkip.TrySkip(ref reader),
                }))
                {
                    return false;
                }
            }

            row.Codings.Add(new ChartedCoding(system, code, display));
        }

        return reader.TokenType == JsonTokenType.EndArray;
    }

    public static bool TryValue(ref Utf8JsonReader reader, ObservationMember member, ObservationRow row, ref ChartedValue value)
    {
        switch (member)
        {
            case ObservationMember.ValueQuantity:
                value.Kind = ChartedKind.Quantity;
                return TryQuantity(ref reader, ref value);
            case ObservationMember.ValueCodeableConcept:
                value.Kind = ChartedKind.Concept;
                return TryConcept(ref reader, row, out value.Answer, out value.Text);
            case ObservationMember.ValueString:
                value.Kind = ChartedKind.String;
                return TryText(ref reader, out value.Text);
            case ObservationMember.ValueDateTime:
                value.Kind = ChartedKind.DateTime;
                return TryText(ref reader, out value.Text);
            case ObservationMember.ValueBoolean:
                value.Kind = ChartedKind.Boolean;
                value.IsTrue = reader.TokenType == JsonTokenType.True;
                return reader.TokenType is JsonTokenType.True or JsonTokenType.False;
            case ObservationMember.ValueInteger:
                value.Kind = ChartedKind.Integer;
                value.HasNumber = true;
                var isInteger = reader.TokenType == JsonTokenType.Number && Utf8Parser.TryParse(reader.ValueSpan, out int _, out var used)
                    && used == reader.ValueSpan.Length;
                value.Number = isInteger ? reader.GetInt32() : 0m;
                return isInteger;
            default:
                value.Kind = ChartedKind.Other;
                return PlainSkip.TrySkip(ref reader);
        }
    }

    private static bool TryQuantity(ref Utf8JsonReader reader, ref ChartedValue value)
    {
        var seen = 0;
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = Member(ref reader, "value"u8, "unit"u8, "system"u8, "code"u8, "comparator"u8, "extension"u8, "id"u8);
            if (!Once(member, ref seen) || !reader.Read() || !(member switch
            {
                0 => value.HasNumber = reader.TokenType == JsonTokenType.Number && reader.TryGetDecimal(out value.Number),
                1 => TryText(ref reader, out value.UnitText),
                2 => TryText(ref reader, out value.UnitSystem),
                3 => TryText(ref reader, out value.UnitCode),
                4 => TryText(ref reader, out value.Comparator),
                _ => PlainSkip.TrySkip(ref reader),
            }))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Once(int member, ref int seen)
    {
        if (member < 0 || (seen & (1 << member)) != 0)
        {
            return false;
        }

        seen |= 1 << member;
        return true;
    }

    private static int Member(
        ref Utf8JsonReader reader, ReadOnlySpan<byte> a, ReadOnlySpan<byte> b, ReadOnlySpan<byte> c, ReadOnlySpan<byte> d,
        ReadOnlySpan<byte> e = default, ReadOnlySpan<byte> f = default, ReadOnlySpan<byte> g = default, ReadOnlySpan<byte> h = default)
    {
        var name = reader.ValueSpan;
        return name.IsEmpty ? -1
            : name.SequenceEqual(a) ? 0
            : name.SequenceEqual(b) ? 1
            : name.SequenceEqual(c) ? 2
            : name.SequenceEqual(d) ? 3
            : name.SequenceEqual(e) ? 4
            : name.SequenceEqual(f) ? 5
            : name.SequenceEqual(g) ? 6
            : name.SequenceEqual(h) ? 7
            : -1;
    }
}
