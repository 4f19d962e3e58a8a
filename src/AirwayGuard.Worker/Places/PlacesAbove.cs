using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Places;

/// <summary>What charted places are part of, as the Locations kept say. Read anew once a minute at most: wards seldom move.</summary>
public sealed class PlacesAbove(ILedger ledger, TimeProvider clock)
{
    private static readonly TimeSpan Fresh = TimeSpan.FromMinutes(1);

    private PlaceTree? _tree;
    private DateTimeOffset _until;

    /// <summary>The places, and all that they are part of: a bed, its room, its ward.</summary>
    public async ValueTask<IReadOnlyCollection<string>> OfAsync(IReadOnlyCollection<string> places, CancellationToken stop)
    {
        if (places.Count == 0)
        {
            return places;
        }

        var now = clock.GetUtcNow();
        if (_tree is null || now >= _until)
        {
            (_tree, _until) = (new PlaceTree(await ledger.StandingAsync("Location", stop)), now + Fresh);
        }

        return [.. places.SelectMany(_tree.WithAbove).Distinct(StringComparer.Ordinal)];
    }
}
