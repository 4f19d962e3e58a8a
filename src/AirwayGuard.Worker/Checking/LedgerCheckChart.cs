using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>Keeps a single run's facts in a ledger of its own.</summary>
public sealed class LedgerCheckChart(ILedger ledger) : ICheckChart
{
    public IEntityInterner Entities => ledger.Entities;

    public async ValueTask<Position> KeepAsync(IReadOnlyList<ReadArrival> arrivals, CancellationToken stop)
    {
        var kept = await ledger.KeepAsync(arrivals, null, stop);
        return kept.Count == 0 ? (await ledger.StateAsync(stop)).Newest : kept.Max(one => one.Position);
    }

    public ValueTask<TimelineLease> LoadAsync(Entity patient, Position asKnownAt, CancellationToken stop) =>
        ledger.LoadAsync(patient, TimeRange.All, asKnownAt, stop);

    public ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop) => ledger.ArrivalAsync(position, stop);

    public string NameOf(Entity entity) => ledger.NameOf(entity);

    public string IdentityOf(Entity entity) => ledger.IdentityOf(entity);
}
