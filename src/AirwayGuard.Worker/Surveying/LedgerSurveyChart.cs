using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Surveying;

/// <summary>A ledger as a survey looks at it; also while a service writes it.</summary>
public sealed class LedgerSurveyChart(ILedgerReader ledger) : ISurveyChart
{
    private static readonly Position Now = new(Position.Never.Value - 1);

    public ValueTask<IReadOnlyList<Entity>> OutletsAsync(CancellationToken stop) => ledger.OutletsAsync(stop);

    public ValueTask<TimelineLease> LoadAsync(Entity entity, CancellationToken stop) => ledger.LoadAsync(entity, TimeRange.All, Now, stop);

    public ValueTask<IReadOnlyList<Arrival>> PlacesAsync(CancellationToken stop) => ledger.StandingAsync("Location", stop);

    public string NameOf(Entity entity) => ledger.NameOf(entity);

    public string IdentityOf(Entity entity) => ledger.IdentityOf(entity);
}
