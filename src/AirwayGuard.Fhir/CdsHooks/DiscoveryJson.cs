using System.Buffers;
using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Writes the answer to a discovery (CDS Hooks 2.0, "Discovery", "Response"). No member is null or empty, but the list may be.</summary>
public static class DiscoveryJson
{
    /// <exception cref="ArgumentException">A service lacks what the standard requires; nothing is written then.</exception>
    public static void Write(IReadOnlyList<HookService> services, IBufferWriter<byte> into)
    {
        ArgumentNullException.ThrowIfNull(services);
        foreach (var service in services)
        {
            Need.Text(service.Id, "id");
            Need.Text(service.Description, "description");
            foreach (var (key, query) in Need.Items(service.Prefetch))
            {
                Need.Text(key, "prefetch");
                Need.Text(query, "prefetch");
            }
        }

        using var json = new Utf8JsonWriter(into);
        json.WriteStartObject();
        json.WriteStartArray("services"u8);
        foreach (var service in services)
        {
            Write(service, json);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(HookService service, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("hook"u8, HookNames.Of(service.Hook));
        Need.WriteFilled(json, "title"u8, service.Title);
        json.WriteString("description"u8, service.Description);
        json.WriteString("id"u8, service.Id);
        if (!service.Prefetch.IsDefaultOrEmpty)
        {
            json.WriteStartObject("prefetch"u8);
            foreach (var (key, query) in service.Prefetch)
            {
                json.WriteString(key, query);
            }

            json.WriteEndObject();
        }

        Need.WriteFilled(json, "usageRequirements"u8, service.UsageRequirements);
        json.WriteEndObject();
    }
}
