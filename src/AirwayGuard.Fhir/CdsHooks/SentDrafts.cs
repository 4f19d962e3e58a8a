using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>The orders of a request, or why they cannot be read. A Bundle without a type is one: the standard's own examples have none.</summary>
internal sealed record SentDrafts(ImmutableArray<HookResource> Resources, HookFault? Fault)
{
    /// <param name="where">Path of the Bundle.</param>
    /// <returns>Null where null was sent.</returns>
    public static SentDrafts? Read(ref JsonCursor cursor, string where)
    {
        if (cursor.IsObject)
        {
            return Of(SentBundle.Read(ref cursor), where);
        }

        var isNull = cursor.IsNull;
        cursor.Skip();
        return isNull ? null : Unusable(where, "It is no Bundle.");
    }

    private static SentDrafts Of(SentBundle bundle, string where)
    {
        if (bundle.Type is not "Bundle")
        {
            return Unusable($"{where}.resourceType", "It is not Bundle.");
        }

        if (bundle.IsEntryNoList)
        {
            return Unusable($"{where}.entry", "It is no list.");
        }

        // Entries without a resource order nothing, and so do not count.
        if (bundle.Entries.Count(static entry => entry.State != SentEntryState.Empty) > HookRequestReader.MostDrafts)
        {
            return new SentDrafts([], new HookFault(
                Codes.HookTooManyDrafts, $"{where}.entry", string.Create(CultureInfo.InvariantCulture, $"It has more than {HookRequestReader.MostDrafts} resources."), 400));
        }

        var resources = ImmutableArray.CreateBuilder<HookResource>(bundle.Entries.Count);
        for (var i = 0; i < bundle.Entries.Count; i++)
        {
            var entry = bundle.Entries[i];
            var at = string.Create(CultureInfo.InvariantCulture, $"{where}.entry[{i}]");
            switch (entry.State)
            {
                case SentEntryState.Resource:
                    resources.Add(new HookResource(entry.Type, entry.Id, entry.Body, $"{at}.resource"));
                    break;
                case SentEntryState.NoEntry:
                    return Unusable(at, "It is no object.");
                case SentEntryState.NoObject:
                    return Unusable($"{at}.resource", "It is no object.");
                case SentEntryState.NoType:
                    return Unusable($"{at}.resource.resourceType", "It is required: the name of a type of R4.");
                default:
                    // There may be entries without a resource; they order nothing.
                    break;
            }
        }

        return new SentDrafts(resources.ToImmutable(), null);
    }

    private static SentDrafts Unusable(string where, string why) => new([], new HookFault(Codes.HookDraftsUnusable, where, why, 400));
}
