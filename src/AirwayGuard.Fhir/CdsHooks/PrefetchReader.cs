namespace AirwayGuard.Fhir.CdsHooks;

public static class PrefetchReader
{
    public static PrefetchPart Read(ReadOnlyMemory<byte> utf8)
    {
        var part = PrefetchPart.Failed;
        return JsonBody.Read(utf8, (ref JsonCursor cursor) => part = SentPrefetch.Read(ref cursor, "prefetch")) is null ? part : PrefetchPart.Failed;
    }
}
