using System.Text.Json;
using Hl7.Fhir.Introspection;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Holds the JSON of a resource against the forms that R4 gives its elements: one or a list, an object or a primitive, and a null
/// in lists of primitives only (json.html). The SDK's recoverable parse takes other forms as they come; its getters then throw, or
/// its lists have a null in them. What R4 does not define is passed over.
/// </summary>
internal static class FormCheck
{
    private static readonly ModelInspector Model = ModelInfo.ModelInspector;
    private static readonly ClassMapping? Extended = Model.FindClassMapping("Element");

    /// <param name="body">A well-formed JSON object.</param>
    public static bool Holds(ReadOnlySpan<byte> body)
    {
        var reader = new Utf8JsonReader(body);
        try
        {
            // Of a type that R4 does not have the SDK makes what it can.
            return reader.Read() && OfResource(ref reader, isInside: false);
        }
        catch (Exception unreadable) when (unreadable is JsonException or InvalidOperationException)
        {
            // Not well-formed, or a name that is no Unicode.
            return false;
        }
    }

    private static bool OfResource(ref Utf8JsonReader reader, bool isInside)
    {
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            return Skipped(ref reader, false);
        }

        // The type may stand behind what it is needed for.
        var ahead = reader;
        var (type, types) = ((string?)null, 0);
        while (ahead.Read() && ahead.TokenType == JsonTokenType.PropertyName)
        {
            var isType = ahead.ValueTextEquals("resourceType"u8);
            ahead.Read();
            types += isType ? 1 : 0;
            type = isType && ahead.TokenType == JsonTokenType.String ? ahead.GetString() : type;
            ahead.Skip();
        }

        var known = type is null ? null : Model.FindClassMapping(type);
        return types > 1 ? Skipped(ref reader, false) : known is null ? Skipped(ref reader, isInside) : OfObject(ref reader, known);
    }

    private static bool OfObject(ref Utf8JsonReader reader, ClassMapping? type)
    {
        if (type is null || reader.TokenType != JsonTokenType.StartObject)
        {
            return Skipped(ref reader, type is null);
        }

        var isFormed = true;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.GetString()!;
            reader.Read();
            isFormed &= OfMember(ref reader, type, name);
        }

        return isFormed;
    }

    private static bool OfMember(ref Utf8JsonReader reader, ClassMapping type, string name)
    {
        // Behind an underscore stand extensions of a primitive; the SDK takes another element there for the element itself.
        var isShadow = name.StartsWith('_');
        name = isShadow ? name[1..] : name;
        var element = type.FindMappedElementByName(name) ?? type.FindMappedElementByChoiceName(name);
        if (element is null)
        {
            return Skipped(ref reader, true);
        }

        var own = element.Choice == ChoiceType.DatatypeChoice && name.Length > element.Name.Length ? Model.FindClassMapping(name[element.Name.Length..]) : element.PropertyTypeMapping;
        return isShadow && own is { IsFhirPrimitive: true }
            ? OfElement(ref reader, element, Extended, mayBeNull: true)
            : OfElement(ref reader, element, own, own is { IsFhirPrimitive: true });
    }

    private static bool OfElement(ref Utf8JsonReader reader, PropertyMapping element, ClassMapping? type, bool mayBeNull)
    {
        var isList = reader.TokenType == JsonTokenType.StartArray;
        if (isList != element.IsCollection)
        {
            return Skipped(ref reader, false);
        }

        if (reader.TokenType == JsonTokenType.Null)
        {
            return true;
        }

        if (!isList)
        {
            return OfOne(ref reader, element, type);
        }

        var isFormed = true;
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            var isNull = reader.TokenType == JsonTokenType.Null;
            isFormed &= isNull ? mayBeNull : OfOne(ref reader, element, type);
        }

        return isFormed;
    }

    private static bool OfOne(ref Utf8JsonReader reader, PropertyMapping element, ClassMapping? type)
    {
        if (element.Choice == ChoiceType.ResourceChoice)
        {
            return OfResource(ref reader, isInside: true);
        }

        if (type is not { IsFhirPrimitive: true })
        {
            return OfObject(ref reader, type);
        }

        var isDue = type.Name switch
        {
            "boolean" => reader.TokenType is JsonTokenType.True or JsonTokenType.False,
            "decimal" or "integer" or "positiveInt" or "unsignedInt" => reader.TokenType == JsonTokenType.Number,
            _ => reader.TokenType == JsonTokenType.String,
        };
        return Skipped(ref reader, isDue);
    }

    private static bool Skipped(ref Utf8JsonReader reader, bool isFormed)
    {
        reader.Skip();
        return isFormed;
    }
}
