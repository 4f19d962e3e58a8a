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
    private readonly ProcessClock _clock;

    private ServiceLife(SqliteLedger ledger, SimulatedServer server, ProcessClock clock, Turns turns, Fences fences, Random chance, LifeSettings settings)
    {
        (_ledger, _clock) = (ledger, clock);
        var simulated = new SimulatedLedger(ledger, turns, fences, settings.Sabotage);
        var provider = ProviderOf(simulated, new SimulatedWire(server, turns, settings.Sabotage), clock, chance);
        var http = provider.GetRequiredService<IHttpClientFactory>().CreateClient(FhirClientServices.ClientName);
        var gate = provider.GetRequiredService<FhirGate>();
        var (board, health) = (new NoticeBoard(), new IntakeHealth());
        var intake = new IntakeOptions { PageSize = settings.PageSize, OverlapSeconds = settings.Sabotage == Sabotage.OverlapForgotten ? 0 : 300 };
        var queries = SimulatedBasis.Queries.Where(query => settings.Sabotage != Sabotage.DeletionsNotAsked || !query.AsksDeletions).ToArray();
        Door = new NotifyDoor(board, health, clock);
        IArrivalSource source = new FhirArrivalSource(http, gate, queries, intake.PageSize, clock);
        source = settings.Sabotage == Sabotage.None ? source : new SabotagedSource(source, settings.Sabotage, server.Clock);
        var sweep = new SweepStep(simulated, source, new FhirArrivalReader(SimulatedBasis.Map), board, health, intake, clock, NullLogger<SweepStep>.Instance);
        var subscriptions = new SubscriptionStep(
            new SubscriptionClient(http, gate), simulated, [.. queries.Where(query => !query.AsksDeletions)], Door, Own, intake, () => $"token-{chance.NextInt64():x16}", board, health,
            clock, NullLogger<SubscriptionStep>.Instance);
        var judge = new JudgeStep(simulated, new ChartedText(), SimulatedBasis.Of(settings.IsLive), clock, TimeSpan.FromMinutes(1));
        var sinks = provider.GetServices<ISink>().Select(sink => settings.Sabotage == Sabotage.LeaseIgnored ? new SabotagedSink(sink) : sink);
        var send = new SendStep(simulated, [.. sinks], new SendOptions { MaxAttempts = 20 }, clock);
        Fibres = [new Fibre(sweep), new Fibre(new DueStep(simulated, clock)), new Fibre(judge), new Fibre(send), new Fibre(subscriptions)];
    }

    /// <summary>Sweep, due, judge, send and subscriptions, in this order.</summary>
    public IReadOnlyList<Fibre> Fibres { get; }

    public NotifyDoor Door { get; }

    /// <summary>The ledger itself, for looking at it.</summary>
    public SqliteLedger Ledger => _ledger;

    public static async Task<ServiceLife> StartAsync(
        string folder, SimulatedServer server, VirtualTime time, Turns turns, Fences fences, SimulatedDisk disk, Random chance, LifeSettings settings)
    {
        var clock = new ProcessClock(time);
        var ledger = await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions { FillSalt = disk.FillSalt, Shared = settings.IsShared, WaitsForDisk = false }, clock);
        if (await OneThread.DoneAsync(ledger.BindAsync(Base.AbsoluteUri, "simulated", CancellationToken.None)) is { } problem)
        {
            throw new InvalidOperationException("The ledger does not take its own server back: " + problem.Code.Id);
        }

        return new ServiceLife(ledger, server, clock, turns, fences, chance, settings);
    }

    /// <returns>The head of the audit trail at the end, as somebody outside would have anchored it.</returns>
    public async Task<AuditHead> EndAsync()
    {
        _clock.End();
        var head = await OneThread.DoneAsync(_ledger.AuditAsync([], _clock.GetUtcNow(), CancellationToken.None));
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
