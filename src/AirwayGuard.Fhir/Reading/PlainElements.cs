using System.Text.Json;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Reads data types of R4 that hold plain members only into the SDK's objects. Each method is called at the token before the value. False or null means that
/// something is not plain (a member given twice, empty, null, of another form, with an extension, or not listed here): the SDK is to read the whole.
/// </summary>
internal static class PlainElements
{
    /// <summary>A method that reads one object into an element.</summary>
    public delegate bool Fill<T>(ref Utf8JsonReader json, T into);

    /// <summary>Steps to the next member's name; false at the end of the object.</summary>
    public static bool IsAtMember(ref Utf8JsonReader json) => json.Read() && json.TokenType == JsonTokenType.PropertyName;

    /// <param name="before">What the member was given as already.</param>
    public static T? Text<T>(ref Utf8JsonReader json, Base? before)
        where T : PrimitiveType, new() =>
        json.Read() && json.TokenType == JsonTokenType.String && before is null && json.GetString() is { Length: > 0 } text ? new T { JsonValue = text } : null;

    public static FhirBoolean? Truth(ref Utf8JsonReader json, Base? before) =>
        json.Read() && json.TokenType is JsonTokenType.True or JsonTokenType.False && before is null ? new FhirBoolean(json.GetBoolean()) : null;

    public static T? Object<T>(ref Utf8JsonReader json, Base? before, Fill<T> fill)
        where T : class, new()
    {
        var read = json.Read() && json.TokenType == JsonTokenType.StartObject && before is null ? new T() : null;
        return read is not null && fill(ref json, read) ? read : null;
    }

    public static bool IsList<T>(ref Utf8JsonReader json, List<T> into, Fill<T> fill)
        where T : class, new()
    {
        if (into.Count > 0 || !json.Read() || json.TokenType != JsonTokenType.StartArray)
        {
            return false;
        }

        while (json.Read() && json.TokenType == JsonTokenType.StartObject)
        {
            var one = new T();
            if (!fill(ref json, one))
            {
                return false;
            }

            into.Add(one);
        }

        return json.TokenType == JsonTokenType.EndArray && into.Count > 0;
    }

    public static bool Concept(ref Utf8JsonReader json, CodeableConcept into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("coding"u8) ? IsList(ref json, into.Coding, Coding)
                : json.ValueTextEquals("text"u8) ? (into.TextElement = Text<FhirString>(ref json, into.TextElement)) is not null
                : false;
        }

        return isPlain && (into.Coding.Count > 0 || into.TextElement is not null);
    }

    public static bool Reference(ref Utf8JsonReader json, ResourceReference into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("reference"u8) ? (into.ReferenceElement = Text<FhirString>(ref json, into.ReferenceElement)) is not null
                : json.ValueTextEquals("display"u8) ? (into.DisplayElement = Text<FhirString>(ref json, into.DisplayElement)) is not null
                : false;
        }

        return isPlain && (into.ReferenceElement ?? into.DisplayElement) is not null;
    }

    public static bool Quantity(ref Utf8JsonReader json, Quantity into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("value"u8) ? (into.ValueElement = Number(ref json, into.ValueElement)) is not null
                : json.ValueTextEquals("unit"u8) ? (into.UnitElement = Text<FhirString>(ref json, into.UnitElement)) is not null
                : json.ValueTextEquals("system"u8) ? (into.SystemElement = Text<FhirUri>(ref json, into.SystemElement)) is not null
                : json.ValueTextEquals("code"u8) ? (into.CodeElement = Text<Code>(ref json, into.CodeElement)) is not null
                : false;
        }

        return isPlain && into.ValueElement is not null;
    }

    public static bool Period(ref Utf8JsonReader json, Period into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("start"u8) ? (into.StartElement = Text<FhirDateTime>(ref json, into.StartElement)) is not null
                : json.ValueTextEquals("end"u8) ? (into.EndElement = Text<FhirDateTime>(ref json, into.EndElement)) is not null
                : false;
        }

        return isPlain && (into.StartElement ?? into.EndElement) is not null;
    }

    public static bool Note(ref Utf8JsonReader json, Annotation into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("text"u8) ? (into.TextElement = Text<Markdown>(ref json, into.TextElement)!) is not null
                : json.ValueTextEquals("time"u8) ? (into.TimeElement = Text<FhirDateTime>(ref json, into.TimeElement)) is not null
                : false;
        }

        return isPlain && into.TextElement is not null;
    }

    public static bool Meta(ref Utf8JsonReader json, Meta into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("versionId"u8) ? (into.VersionIdElement = Text<Id>(ref json, into.VersionIdElement)) is not null
                : json.ValueTextEquals("lastUpdated"u8) ? (into.LastUpdatedElement = Text<Instant>(ref json, into.LastUpdatedElement)) is not null
                : false;
        }

        return isPlain && (into.VersionIdElement is not null || into.LastUpdatedElement is not null);
    }

    private static bool Coding(ref Utf8JsonReader json, Coding into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("system"u8) ? (into.SystemElement = Text<FhirUri>(ref json, into.SystemElement)) is not null
                : json.ValueTextEquals("code"u8) ? (into.CodeElement = Text<Code>(ref json, into.CodeElement)) is not null
                : json.ValueTextEquals("display"u8) ? (into.DisplayElement = Text<FhirString>(ref json, into.DisplayElement)) is not null
                : false;
        }

        return isPlain && (into.SystemElement is not null || into.CodeElement is not null || into.DisplayElement is not null);
    }

    // Other ways to write a number are the SDK's to read.
    private static FhirDecimal? Number(ref Utf8JsonReader json, Base? before) =>
        json.Read() && json.TokenType == JsonTokenType.Number && before is null && json.ValueSpan.Length <= 20 && json.ValueSpan.IndexOfAny("eE"u8) < 0 && json.TryGetDecimal(out var number)
            ? new FhirDecimal { JsonValue = number }
            : null;
}
