using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

/// <summary>
/// What every store of the ledger must keep to. A store's tests derive from it and say how one is opened; its parts are in
/// the files beside this one.
/// </summary>
public abstract partial class LedgerContract : IAsyncLifetime
{
    protected const string Server = "https://ehr.example/fhir";
    protected static readonly TimeSpan Lease = TimeSpan.FromMinutes(2);
    private ILedger? _ledger;

    protected static DateTimeOffset Now => Charted.Morning.AddHours(4);

    protected static CancellationToken Stop => TestContext.Current.CancellationToken;

    protected ILedger Ledger => _ledger!;

    /// <summary>Opens this test's store; called again, after the first is closed, it opens the same store.</summary>
    /// <param name="shared">Two ledgers will be open on the store at once.</param>
    protected abstract ValueTask<ILedger> OpenAsync(bool shared);

    /// <summary>A reader from outside beside the store that is open.</summary>
    protected abstract ILedgerReader OpenReader();

    public async ValueTask InitializeAsync() => _ledger = await OpenAsync(shared: false);

    public async ValueTask DisposeAsync()
    {
        await Ledger.DisposeAsync();
        CleanUp();
        GC.SuppressFinalize(this);
    }

    /// <summary>Removes the store of this test.</summary>
    protected abstract void CleanUp();

    protected async ValueTask ReopenAsync()
    {
        await Ledger.DisposeAsync();
        _ledger = await OpenAsync(shared: false);
    }

    protected ValueTask<IReadOnlyList<KeptArrival>> Keep(params ReadArrival[] arrivals) => Ledger.KeepAsync(arrivals, null, Stop);

    protected async ValueTask<Position> KeepOne(ReadArrival arrival) => (await Keep(arrival))[0].Position;

    protected ValueTask<Work?> Claim(DateTimeOffset? now = null) => Ledger.ClaimAsync(WorkKind.Judge, Lease, now ?? Now, Stop);

    protected ValueTask<Work?> ClaimSending(DateTimeOffset? now = null) => Ledger.ClaimAsync(WorkKind.Send, Lease, now ?? Now, Stop);

    /// <summary>Vacuum readings of a patient as known at a position, in their order.</summary>
    protected async ValueTask<IReadOnlyList<long>> Vacuums(string patient, Position at, TimeRange? window = null)
    {
        using var lease = await Ledger.LoadAsync(Ledger.Intern(patient), window ?? TimeRange.All, at, Stop);
        return Digits(lease);
    }

    protected static IReadOnlyList<long> Digits(TimelineLease lease) => [.. lease.View.Of(Concepts.VacuumPressure).ToArray().Select(fact => fact.Value.Digits)];

    protected static Decision Decide(Work work) =>
        new(work.Patient, work.UpTo, Now.UtcTicks, work.Fence, "basis-1", [], [], [], []);

    protected static FindingRecord Finding(Guid key, Entity patient, FindingState state = FindingState.Open) =>
        new(key, FindingKind.Occurrence, "vacuum-above-ceiling", patient, state, Guid.Empty, 1, Charted.Minutes(0), Charted.Minutes(1), false, new Position(1), "basis-1", "{\"a\":1}"u8.ToArray());

    protected static Receipt ReceiptOf(Work sending, SendState state, DateTimeOffset? notBefore = null, string? code = null) =>
        new(sending.Outgoing, sending.Fence, state, state == SendState.Confirmed ? "77" : null, state == SendState.Confirmed ? "1" : null, code, Now, notBefore);

    /// <summary>Judges every marked patient without finding anything, until none is marked.</summary>
    protected async ValueTask SettleAll()
    {
        while (await Claim() is { } work)
        {
            Assert.Equal(Committed.Yes, await Ledger.DecideAsync(Decide(work), Stop));
        }
    }

    /// <summary>Marks a patient and decides to send one message.</summary>
    protected async ValueTask Send(Guid key, string content, Urgency urgency = Urgency.Fresh, DateTimeOffset? at = null)
    {
        await Keep(Charted.Vacuum(Ledger, $"for-{content}", "1", "Patient/1", 120));
        var work = (await Claim())!;
        var decision = Decide(work) with { AsOf = (at ?? Now).UtcTicks, Outgoing = [new Outgoing(key, "fhir", work.Patient, content) { Urgency = urgency }] };
        Assert.Equal(Committed.Yes, await Ledger.DecideAsync(decision, Stop));
    }
}
