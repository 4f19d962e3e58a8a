using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Reads what would stand under one key of a prefetch, e.g. what a FHIR server answered to a question of ours in its place. Never throws on input.</summary>
public static class PrefetchReader
{
    /// <inheritdoc cref="Read(ReadOnlyMemory{byte}, string)"/>
    public static PrefetchPart Read(ReadOnlyMemory<byte> utf8) => Read(utf8, "answer");

    /// <param name="utf8">A resource, a Bundle or null, UTF-8 JSON.</param>
    /// <param name="where">Path that the resources' places begin with, e.g. <c>prefetch.airway</c>.</param>
    /// <returns>Nothing for null; Failed for an OperationOutcome and for what cannot be used whole.</returns>
    public static PrefetchPart Read(ReadOnlyMemory<byte> utf8, string where)
    {
        if (IsNull(utf8))
        {
            return PrefetchPart.Nothing;
        }

        var part = PrefetchPart.Failed;
        return JsonBody.Read(utf8, (ref JsonCursor cursor) => part = SentPrefetch.Read(ref cursor, where)) is null ? part : PrefetchPart.Failed;
    }

    private static bool IsNull(ReadOnlyMemory<byte> utf8) => JsonCheck.WithoutMark(utf8).Span.Trim(" \t\r\n"u8).SequenceEqual("null"u8);
}
