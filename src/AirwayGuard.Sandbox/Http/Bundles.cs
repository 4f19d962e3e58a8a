using System.Globalization;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;
using Microsoft.AspNetCore.WebUtilities;

namespace AirwayGuard.Sandbox.Http;

/// <summary>Bundles posted to the base address (R4 http.html#transaction).</summary>
internal sealed class Bundles(SandboxRepository repository, Router router)
{
    public SandboxResponse Answer(SandboxRequest request)
    {
        var bundle = JsonText.ParseObject(request.Body, repository.Options.MaxJsonDepth);
        if (bundle["resourceType"].Text() != "Bundle")
        {
            throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "structure", "Only a Bundle may be posted to the base address.", "resourceType");
        }

        var type = bundle["type"].Text();
        if (type is not ("transaction" or "batch"))
        {
            throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "value", "Only a transaction or a batch may be posted to the base address.", "Bundle.type");
        }

        var nodes = bundle["entry"] as JsonArray ?? [];
        var entries = type == "transaction"
            ? new Transaction(repository, router, request).Run([.. nodes.Select((node, index) => BundleEntry.Read(index, node, request.BaseAddress))])
            : Batch(request, nodes);
        return SandboxResponse.Json(200, Render(request, type, entries));
    }

    // R4 http.html#batch: each entry for itself; one commit for all keeps a bulk load to one sync of the disk.
    private List<SandboxResponse> Batch(SandboxRequest request, JsonArray nodes) => repository.Transact(() =>
    {
        var responses = new List<SandboxResponse>();
        for (var i = 0; i < nodes.Count; i++)
        {
            try
            {
                var entry = BundleEntry.Read(i, nodes[i], request.BaseAddress);
                var single = entry.AsRequest(request);
                responses.Add(single.Body.Length > repository.Options.MaxEntryBytes ? SandboxResponse.Of(Doors.TooLarge(), repository.Options) : router.Answer(single));
            }
            catch (SandboxRefusalException refusal)
            {
                responses.Add(SandboxResponse.Of(refusal, repository.Options));
            }
        }

        return responses;
    });

    private byte[] Render(SandboxRequest request, string type, List<SandboxResponse> responses)
    {
        using var writer = new BundleWriter($"{type}-response", repository.Now, total: null, links: []);
        var wish = Preference.Return(request);
        foreach (var response in responses)
        {
            var status = string.Create(CultureInfo.InvariantCulture, $"{response.Status} {ReasonPhrases.GetReasonPhrase(response.Status)}").TrimEnd();
            var failed = response.Status >= 400;
            // A write answers with its resource only when asked to: a ward's load would come back whole.
            var isWrite = response.Headers.ContainsKey("Location");
            var resource = failed || (isWrite && wish != "representation") ? default : response.Body;
            var outcome = failed || (isWrite && wish == "OperationOutcome") ? response.Body : default;
            writer.AddResponse(status, response.Headers.GetValueOrDefault("Location"), response.Version, resource, outcome);
        }

        return writer.Finish();
    }
}
