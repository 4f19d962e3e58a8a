using System.Text.Json;
using AirwayGuard.Core.Diagnostics;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The SDK's recoverable parse of bytes that are known to be well-formed JSON.</summary>
internal static class PocoParse
{
    // What the attribute validation finds is recoverable and would be dropped, and it costs more than the parse itself.
    private static readonly FhirJsonDeserializer Parser = new(FhirJsonDeserializer.RECOVERABLE.Settings with { Validator = null });

    /// <param name="isDoubled">A member was given twice and the last taken.</param>
    /// <returns>Null where the resource contradicts the definition of its type too much to be read.</returns>
    public static Resource? Read(ReadOnlyMemory<byte> body, out bool isDoubled)
    {
        isDoubled = false;
        return Plain(body.Span) ?? Read(body, Parser, out isDoubled);
    }

    private static Resource? Plain(ReadOnlySpan<byte> body)
    {
        try
        {
            return PlainOrders.Read(body);
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            // The latter: a text is written with an escape that is no Unicode. The SDK's parse says what becomes of it.
            return null;
        }
    }

    /// <summary>The same by another parser, so that a test can hold the two beside each other.</summary>
    internal static Resource? Read(ReadOnlyMemory<byte> body, FhirJsonDeserializer parser, out bool isDoubled)
    {
        isDoubled = false;
        try
        {
            if (TryParse(body, parser, out var resource))
            {
                return resource;
            }

            if (LastMemberWins.Rewrite(body) is { } rewritten && TryParse(rewritten, parser, out resource))
            {
                isDoubled = true;
                return resource;
            }

            return null;
        }
        catch (Exception refused) when (refused is not OutOfMemoryException)
        {
            // The SDK throws a dozen kinds of exception on what it cannot take. Whatever it is, the caller tells it under a code.
            return null;
        }
    }

    /// <summary>Runs a reading of the parsed resource; an element of a wrong form, on which the SDK's getters throw, makes it unreadable.</summary>
    public static void Guarded(Scribe scribe, ReadOnlyMemory<byte> body, Action read)
    {
        try
        {
            read();
        }
        catch (Exception refused) when (IsOfAWrongForm(refused, body))
        {
            scribe.Unreadable(Codes.Unreadable, "An element has a form that its type does not have.");
        }
    }

    /// <summary>What reading an element of a wrong form throws. A null that no list of the body accounts for is a mistake of ours.</summary>
    public static bool IsOfAWrongForm(Exception refused, ReadOnlyMemory<byte> body) =>
        refused is Hl7.Fhir.Validation.CodedValidationException or InvalidCastException or FormatException
        || (refused is NullReferenceException && !FormCheck.Holds(body.Span));

    private static bool TryParse(ReadOnlyMemory<byte> body, FhirJsonDeserializer parser, out Resource? resource)
    {
        var reader = new Utf8JsonReader(body.Span);
        return parser.TryDeserializeResource(ref reader, out resource, out _) && resource is not null;
    }
}
