using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;

namespace AirwayGuard.TestKit.Kills;

/// <summary>Whether a service that runs has anything left to do, seen from its ledger.</summary>
internal sealed class Stillness : IAsyncDisposable
{
    // Longer than any sweep is away, wide ones included.
    private static readonly TimeSpan Unchanged = TimeSpan.FromSeconds(12), Soon = TimeSpan.FromSeconds(20);

    private readonly SqliteLedger _ledger;
    private readonly TimeProvider _clock;
    private LedgerState? _state;
    private DateTimeOffset _since;

    private Stillness(SqliteLedger ledger, TimeProvider clock) => (_ledger, _clock, _since) = (ledger, clock, clock.GetUtcNow());

    public static async Task<Stillness> OfAsync(ServicePlace place, TimeProvider clock) =>
        new(await SqliteLedger.OpenAsync(place.LedgerFolder, new SqliteLedgerOptions { Shared = true }, clock), clock);

    public async Task<bool> HoldsAsync()
    {
        var (now, state) = (_clock.GetUtcNow(), await _ledger.StateAsync(CancellationToken.None));
        if (state != _state)
        {
            (_state, _since) = (state, now);
        }

        return state is { PatientsWaiting: 0, Pending: 0, Unknown: 0 } && now - _since > Unchanged
            && (await _ledger.NextDueAsync(CancellationToken.None) is not { } due || due > now + Soon);
    }

    public ValueTask DisposeAsync() => _ledger.DisposeAsync();

    public override string ToString() => $"{_state?.PatientsWaiting} wait, {_state?.Pending} pending, {_state?.Unknown} unknown, position {_state?.Newest.Value}";
}
