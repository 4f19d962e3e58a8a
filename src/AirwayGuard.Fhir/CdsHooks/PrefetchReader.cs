namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Reads what a FHIR server answered to a question of ours in place of a prefetch. Never throws on input.</summary>
public static class PrefetchReader
{
    /// <param name="utf8">A resource or Bundle, UTF-8 JSON.</param>
    /// <returns>Failed for an OperationOutcome and for what cannot be used.</returns>
    public static PrefetchPart Read(ReadOnlyMemory<byte> utf8)
    {
        var part = PrefetchPart.Failed;
        return JsonBody.Read(utf8, (ref JsonCursor cursor) => part = SentPrefetch.Read(ref cursor, "answer")) is null ? part : PrefetchPart.Failed;
    }
}
