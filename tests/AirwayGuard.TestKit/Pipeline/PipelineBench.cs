using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.Rules;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.Sandbox.Subscriptions;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>
/// The whole way from a FHIR server and back, stepped by hand: the sandbox in memory of this process, a ledger on disk, the real
/// client, reader, judge and sink. Time stands still but for <see cref="RoundAsync"/>.
/// </summary>
public sealed class PipelineBench : IAsyncDisposable
{
    public const string Server = "http://localhost/fhir";

    private const int MostPages = 10_000;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("airwayguard-pipeline-");
    private readonly SandboxRepository _repository;
    private readonly SubscriptionDispatcher _dispatcher;
    private readonly NoticePost _notices;
    private readonly SandboxHandler _sandbox;
    private readonly HttpClient _people;
    private readonly FhirGate _gate = new(new Uri(Server), []);
    private readonly BenchSettings _settings;
    private NoticeBoard _board = new();
    private SubscriptionStep? _subscriptions;
    private SqliteLedger? _ledger;
    private FhirSink? _sink;
    private SweepStep? _sweep;

    private PipelineBench(DateTimeOffset start, BenchSettings settings)
    {
        _settings = settings;
        Clock = new SetClock(start);
        _repository = new SandboxRepository(new SandboxOptions { Folder = Path.Combine(_folder.FullName, "server"), WaitsForDisk = false }, Clock);
        _sandbox = new SandboxHandler(new SandboxServer(_repository, Clock));
        _notices = new NoticePost(settings.Notices);
        _dispatcher = new SubscriptionDispatcher(_repository, _notices, Clock);
        _people = new HttpClient(_sandbox, disposeHandler: false);
        Wire = new FaultyWire(Behind(settings.Habits(Clock), _sandbox));
        Client = new HttpClient(Wire);
        var rules = FewChecks.Of(ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!);
        Basis = new ServiceBasis(
            rules, true, UnknownAge.CannotTell, TimeSpan.FromHours(2),
            new MessageBasis(rules.Name, rules.Version, rules.Sha256, new string('b', 64), "1.0.0", "1"));
    }

    public SetClock Clock { get; }

    public FaultyWire Wire { get; }

    public HttpClient Client { get; }

    /// <summary>What is judged by; a change is in force from the next <see cref="RestartAsync"/> on.</summary>
    public ServiceBasis Basis { get; set; }

    public SendOptions SendOptions => _settings.Send;

    /// <summary>What the sweep and the Subscriptions told of themselves since the last start.</summary>
    public IntakeHealth Health { get; private set; } = new();

    /// <summary>Notices that came to the door so far.</summary>
    public int NoticesDelivered => _notices.Delivered;

    /// <summary>The service's data folder.</summary>
    public string DataFolder => Path.Combine(_folder.FullName, "data");

    public SqliteLedger Ledger => _ledger!;

    public JudgeStep Judge { get; private set; } = null!;

    public DueStep Due { get; private set; } = null!;

    public SendStep Send { get; private set; } = null!;

    /// <summary>Close and open everything of ours between two pieces of work; the server stays.</summary>
    public bool RestartsBetween { get; set; }

    private static CancellationToken Ended => TestContext.Current.CancellationToken;

    public static async Task<PipelineBench> StartAsync(DateTimeOffset start, BenchSettings? settings = null)
    {
        var bench = new PipelineBench(start, settings ?? new BenchSettings());
        await bench.OpenAsync();
        return bench;
    }

    public async Task RestartAsync()
    {
        await StopAsync();
        await OpenAsync();
    }

    /// <summary>Writes a resource to the server as another system would, behind its habits.</summary>
    public async Task PutAsync(string json)
    {
        var resource = JsonNode.Parse(json)!;
        using var content = new StringContent(json, Encoding.UTF8, new MediaTypeHeaderValue("application/fhir+json"));
        using var answer = await _people.PutAsync(new Uri($"{Server}/{resource["resourceType"]}/{resource["id"]}"), content, Ended);
        Assert.True(answer.IsSuccessStatusCode, $"{answer.StatusCode}");
    }

    public async Task DeleteAsync(string name)
    {
        using var answer = await _people.DeleteAsync(new Uri($"{Server}/{name}"), Ended);
        Assert.True(answer.IsSuccessStatusCode, $"{answer.StatusCode}");
    }

    /// <summary>All resources of a type on the server, in the order of their first writing.</summary>
    public async Task<IReadOnlyList<JsonObject>> AllAsync(string type)
    {
        var bundle = JsonNode.Parse(await _people.GetStringAsync(new Uri($"{Server}/{type}?_count=500&_sort=_lastUpdated"), Ended))!;
        return [.. bundle["entry"]?.AsArray().Select(entry => entry!["resource"]!.AsObject()) ?? []];
    }

    /// <summary>An hour passes; then everything is asked, judged and sent until nothing is left to do.</summary>
    public async Task RoundAsync(TimeSpan? passes = null)
    {
        Clock.Now += passes ?? TimeSpan.FromHours(1);
        await NotifyAsync();
        await SweepAsync();
        await UntilIdleAsync(() => Due);
        await UntilIdleAsync(() => Judge);
        await UntilIdleAsync(() => Send);
    }

    /// <summary>Subscriptions are looked after, and the server sends what notices it has. Nothing where the settings leave them out.</summary>
    public async Task NotifyAsync()
    {
        if (!_settings.IsWhole)
        {
            return;
        }

        while (await _subscriptions!.StepAsync(Ended) == StepResult.DidWork)
        {
        }

        while (await _dispatcher.StepAsync(Ended))
        {
        }

        _notices.Release();
    }

    /// <summary>Everything is asked once.</summary>
    public async Task SweepAsync()
    {
        var pages = 0;
        while (await _sweep!.StepAsync(Ended) == StepResult.DidWork)
        {
            Assert.True(++pages < MostPages, "The sweep comes to no end.");
        }

        await BetweenAsync();
    }

    public async Task UntilIdleAsync(Func<IStep> step)
    {
        while (await step().StepAsync(Ended) == StepResult.DidWork)
        {
            await BetweenAsync();
        }

        await BetweenAsync();
    }

    /// <summary>What the ledger records about a patient.</summary>
    public async Task<IReadOnlyList<FindingRecord>> FindingsAsync(string patient = "Patient/p") =>
        await Ledger.FindingsAsync(Ledger.Entities.Intern(EntityKind.Patient, Encoding.UTF8.GetBytes(patient)), Ended);

    public async Task<IReadOnlyList<AuditEntry>> AuditAsync(string what)
    {
        var found = new List<AuditEntry>();
        await foreach (var entry in Ledger.AuditTrailAsync(Ended))
        {
            if (entry.What == what)
            {
                found.Add(entry);
            }
        }

        return found;
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        Client.Dispose();
        Wire.Dispose();
        _people.Dispose();
        _sandbox.Dispose();
        _dispatcher.Dispose();
        _notices.Dispose();
        _repository.Dispose();
        _folder.Delete(recursive: true);
    }

    private static HttpMessageHandler Behind(IEnumerable<DelegatingHandler> habits, HttpMessageHandler server)
    {
        foreach (var habit in habits.Reverse())
        {
            habit.InnerHandler = server;
            server = habit;
        }

        return server;
    }

    private async Task BetweenAsync()
    {
        if (RestartsBetween)
        {
            await RestartAsync();
        }
    }

    private async Task OpenAsync()
    {
        _board = new NoticeBoard();
        _ledger = await SqliteLedger.OpenAsync(Path.Combine(DataFolder, "ledger"), new SqliteLedgerOptions { WaitsForDisk = false }, Clock);
        Health = new IntakeHealth();
        _sink = new FhirSink(new FhirHttp(Client, _gate, Clock), _settings.Sink, Clock, _ledger.LastSentAsync);
        var queries = SweepQueries.For(ShippedMaps.StandardCodes);
        var source = new FhirArrivalSource(Client, _gate, _settings.IsWhole ? [.. queries, .. SweepQueries.Deletions] : queries, _settings.Intake.PageSize, Clock);
        _sweep = new SweepStep(_ledger, source, new FhirArrivalReader(ShippedMaps.StandardCodes), _board, Health, _settings.Intake, Clock, NullLogger<SweepStep>.Instance);
        _notices.Door = new NotifyDoor(_board, Health, Clock);
        _subscriptions = new SubscriptionStep(
            new SubscriptionClient(Client, _gate), _ledger, queries, _notices.Door, new Uri("http://127.0.0.1:8480/"), _settings.Intake, () => Guid.NewGuid().ToString("N"), _board, Health,
            Clock, NullLogger<SubscriptionStep>.Instance);
        Judge = new JudgeStep(_ledger, new ChartedText(), Basis, Clock, TimeSpan.FromMinutes(1));
        Due = new DueStep(_ledger, Clock);
        Send = new SendStep(_ledger, [_sink], SendOptions, Clock);
    }

    /// <summary>As a service that stops: the ledger is let go of. <see cref="RestartAsync"/> starts it again.</summary>
    public async Task StopAsync()
    {
        if (_ledger is null)
        {
            return;
        }

        _board.Dispose();
        _sink!.Dispose();
        await _ledger.DisposeAsync();
        _ledger = null;
    }
}
