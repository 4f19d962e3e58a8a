using System.Text.Json.Nodes;
using AirwayGuard.Sandbox;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>What a server holds, and the people who change what is ours there; for holding it against a ledger.</summary>
internal sealed class ServerContents(SandboxRepository repository)
{
    /// <summary>What people did to our resources.</summary>
    public PersonsHands Hands { get; } = new(repository);

    /// <summary>The versions that Provenances speak of.</summary>
    public IEnumerable<string> ProvenanceTargets =>
        All("Provenance").Select(version => JsonNode.Parse(version.Body.Span)!["target"]?[0]?["reference"]?.GetValue<string>() ?? "");

    /// <summary>Ids of the charted rows that were deleted.</summary>
    public IEnumerable<string> DeletedRows => repository.History("Observation").Where(version => version.IsDeletion).Select(version => version.Id).Distinct(StringComparer.Ordinal);

    /// <summary>The current versions.</summary>
    public IReadOnlyList<StoredVersion> All(string type) => repository.Search(type, "");
}
