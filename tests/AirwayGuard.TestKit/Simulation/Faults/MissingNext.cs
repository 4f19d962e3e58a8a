using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A full page without a link to what follows.</summary>
internal sealed class MissingNext() : PageFault("no next link")
{
    protected override bool Spoil(JsonObject bundle, Uri asked) => Remove(bundle, Next(bundle));
}
