using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>What stands under one key of a prefetch. Nothing in it makes a request unusable: what cannot be used counts as not sent.</summary>
internal static class SentPrefetch
{
    /// <param name="where">Path of the key.</param>
    public static PrefetchPart Read(ref JsonCursor cursor, string where)
    {
        if (cursor.IsObject)
        {
            return Of(SentBundle.Read(ref cursor), where);
        }

        var isNull = cursor.IsNull;
        cursor.Skip();
        return isNull ? PrefetchPart.Nothing : PrefetchPart.Failed;
    }

    private static PrefetchPart Of(SentBundle sent, string where) => sent.Type switch
    {
        null or "OperationOutcome" => PrefetchPart.Failed,
        "Bundle" => OfBundle(sent, where),
        var type => new PrefetchPart(PrefetchState.Given, [new HookResource(type, sent.Id, sent.Body, where)], null),
    };

    // A row that is held back or broken may be the one that matters: the rest must not pass for all there is.
    private static PrefetchPart OfBundle(SentBundle sent, string where)
    {
        if (sent.IsEntryNoList || sent.IsNextUnusable)
        {
            return PrefetchPart.Failed;
        }

        var resources = ImmutableArray.CreateBuilder<HookResource>(sent.Entries.Count);
        for (var i = 0; i < sent.Entries.Count; i++)
        {
            var entry = sent.Entries[i];
            if (entry.IsOutcome)
            {
                if (SaysError(entry.Body))
                {
                    return PrefetchPart.Failed;
                }

                continue;
            }

            if (entry.State != SentEntryState.Resource)
            {
                return PrefetchPart.Failed;
            }

            resources.Add(new HookResource(entry.Type, entry.Id, entry.Body, string.Create(CultureInfo.InvariantCulture, $"{where}.entry[{i}].resource")));
        }

        return new PrefetchPart(PrefetchState.Given, resources.ToImmutable(), sent.Next);
    }

    // A warning beside what was found takes nothing from it; an error says that something is lacking (R4 issue-severity).
    private static bool SaysError(ReadOnlyMemory<byte> outcome)
    {
        if (outcome.IsEmpty)
        {
            return false;
        }

        using var read = JsonDocument.Parse(outcome);
        return read.RootElement.TryGetProperty("issue", out var issues) && issues.ValueKind == JsonValueKind.Array
            && issues.EnumerateArray().Any(static issue => issue.ValueKind == JsonValueKind.Object && issue.TryGetProperty("severity", out var severity) && severity.ValueKind == JsonValueKind.String && severity.GetString() is "error" or "fatal");
    }
}
