using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A page of which the second half is missing, and with it the link to what follows. Its total alone tells.</summary>
internal sealed class HalfPage() : PageFault("half a page")
{
    protected override bool Spoil(JsonObject bundle, Uri asked)
    {
        var entries = Entries(bundle);
        if (entries.Count < 2)
        {
            return false;
        }

        Remove(bundle, Next(bundle));
        for (var left = entries.Count / 2; left > 0; left--)
        {
            entries.RemoveAt(entries.Count - 1);
        }

        return true;
    }
}
