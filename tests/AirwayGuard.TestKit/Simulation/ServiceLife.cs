using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>
/// The service from a start to an end of its process, put together as the host does. Its end is abrupt: what it was doing is
/// never gone on with, and nothing in memory is left.
/// </summary>
internal sealed class ServiceLife
{
    private static readonly Uri Base = new("http://localhost/fhir"), Own = new("http://127.0.0.1:8480/");
    private readonly SqliteLedger _ledger;
    private readonly VirtualTime _clock;

    private ServiceLife(SqliteLedger ledger, SimulatedServer server, VirtualTime clock, Turns turns, Random chance, bool live, Sabotage sabotage)
    {
        (_ledger, _clock) = (ledger, clock);
        var simulated = new SimulatedLedger(ledger, turns, sabotage);
        var provider = ProviderOf(simulated, new SimulatedWire(server.Handler, turns, sabotage), clock, chance);
        var http = provider.GetRequiredService<IHttpClientFactory>().CreateClient(FhirClientServices.ClientName);
        var gate = provider.GetRequiredService<FhirGate>();
        var (board, health, intake) = (new NoticeBoard(), new IntakeHealth(), new IntakeOptions());
        Door = new NotifyDoor(board, health, clock);
        var source = new FhirArrivalSource(http, gate, SimulatedBasis.Queries, intake.PageSize, clock);
        var sweep = new SweepStep(simulated, source, new FhirArrivalReader(SimulatedBasis.Map), board, health, intake, clock, NullLogger<SweepStep>.Instance);
        var subscriptions = new SubscriptionStep(
            new SubscriptionClient(http, gate), simulated, SimulatedBasis.Queries, Door, Own, intake, () => $"token-{chance.NextInt64():x16}", board, health, clock,
            NullLogger<SubscriptionStep>.Instance);
        var judge = new JudgeStep(simulated, new ChartedText(), SimulatedBasis.Of(live), clock, TimeSpan.FromMinutes(1));
        var send = new SendStep(simulated, [.. provider.GetServices<ISink>()], new SendOptions { MaxAttempts = 20 }, clock);
        Fibres = [new Fibre(sweep), new Fibre(new DueStep(simulated, clock)), new Fibre(judge), new Fibre(send), new Fibre(subscriptions)];
    }

    /// <summary>Sweep, due, judge, send and subscriptions, in this order.</summary>
    public IReadOnlyList<Fibre> Fibres { get; }

    public NotifyDoor Door { get; }

    /// <summary>The ledger itself, for looking at it.</summary>
    public SqliteLedger Ledger => _ledger;

    public static async Task<ServiceLife> StartAsync(string folder, SimulatedServer server, VirtualTime clock, Turns turns, Random chance, bool live, Sabotage sabotage)
    {
        var ledger = await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions { FillSalt = chance.NextBytes }, clock);
        if (await OneThread.DoneAsync(ledger.BindAsync(Base.AbsoluteUri, "simulated", CancellationToken.None)) is { } problem)
        {
            throw new InvalidOperationException("The ledger does not take its own server back: " + problem.Code.Id);
        }

        return new ServiceLife(ledger, server, clock, turns, chance, live, sabotage);
    }

    /// <returns>The head of the audit trail at the end, as somebody outside would have anchored it.</returns>
    public async Task<AuditHead> EndAsync()
    {
        _clock.Forget();
        var head = await OneThread.DoneAsync(_ledger.AuditAsync([], _clock.Now, CancellationToken.None));
        await OneThread.DoneAsync(_ledger.DisposeAsync());
        return head;
    }

    private static ServiceProvider ProviderOf(ILedger ledger, HttpMessageHandler wire, TimeProvider clock, Random chance)
    {
        var services = new ServiceCollection();
        services.AddSingleton(clock).AddSingleton(ledger).AddSingleton(new Jitter(chance.NextDouble));
        services.AddAirwayGuardFhirClient(options => options.BaseUrl = Base).ConfigurePrimaryHttpMessageHandler(() => wire);
        services.AddAirwayGuardWriteBack(static _ => { });
        return services.BuildServiceProvider();
    }
}
