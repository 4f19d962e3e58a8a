using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Places;
using AirwayGuard.Worker.Questions;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>The desk that answers an EHR's questions, on a ledger on disk that holds what is put there. Time stands still.</summary>
public sealed class QuestionBench : IAsyncDisposable
{
    public const string Server = "http://localhost/fhir";

    private readonly DirectoryInfo _folder;
    private readonly AnsweringWire _wire = new();
    private readonly HookFetch _fetch;
    private readonly FhirArrivalReader _reader;
    private readonly QuestionPlaces _places;
    private readonly ChartedText _texts;
    private readonly AnswerBook _book;

    private QuestionBench(DirectoryInfo folder, SqliteLedger ledger, SetClock clock, RuleSet rules, CodeMap map, SignedOff signedOff, TimeSpan? saysAgain)
    {
        (_folder, Ledger, Clock) = (folder, ledger, clock);
        InForce = new BasisInForce(new ServiceBasis(
            rules, true, UnknownAge.CannotTell, TimeSpan.FromHours(2), new MessageBasis(rules.Name, rules.Version, rules.Sha256, new string('b', 64), "1.0.0", "1"))
        { SignedOff = signedOff });
        _reader = new FhirArrivalReader(map);
        _fetch = new HookFetch(_wire, new FhirGate(new Uri(Server), [new Uri("http://alias.example.org/fhir")]));
        _places = new QuestionPlaces(new PlacesAbove(ledger, clock));
        _texts = new ChartedText(map);
        _book = new AnswerBook(ledger);
        var swept = new SweptUpTo(ledger, ["Patient"], clock);
        var data = new QuestionData(ledger, _reader, map, _fetch, Pulled.Add, Server, clock);
        Desk = new HookDesk(
            new OrderQuestions(ledger, _reader, _texts, InForce, data, _places, swept, _book, new PolicyLabel(null, null), Server, clock, saysAgain),
            new PatientViews(ledger, InForce, swept, _book, new PolicyLabel(null, null), clock), _fetch, ledger, _book, InForce, map, clock);
    }

    public SqliteLedger Ledger { get; }

    public SetClock Clock { get; }

    public BasisInForce InForce { get; }

    public HookDesk Desk { get; }

    /// <summary>Types for which a sweep was asked.</summary>
    public List<string> Pulled { get; } = [];

    /// <summary>What the FHIR server answers, by path and query; addresses that are not here are 404.</summary>
    public Dictionary<string, string> ServerAnswers => _wire.Answers;

    /// <summary>Requests that reached the FHIR server, with their Authorization.</summary>
    public IReadOnlyList<(string Address, string? Authorization)> Asked => _wire.Asked;

    public static async Task<QuestionBench> StartAsync(DateTimeOffset now, string rules = "strict-ranges", SignedOff? signedOff = null, TimeSpan? saysAgain = null)
    {
        var clock = new SetClock(now);
        var folder = Directory.CreateTempSubdirectory("airwayguard-question-");
        var ledger = await SqliteLedger.OpenAsync(folder.FullName, new SqliteLedgerOptions { WaitsForDisk = false }, clock);
        var map = CodeMap.Load(ShippedMaps.Standard).Map!;
        return new QuestionBench(folder, ledger, clock, ShippedRuleSets.Load(rules).RuleSet!, map, signedOff ?? SignedOff.All, saysAgain);
    }

    /// <summary>Keeps resources as the sweep would, and notes that everything was asked for at this time.</summary>
    public async Task FollowAsync(DateTimeOffset upTo, params IEnumerable<string> resources)
    {
        foreach (var json in resources)
        {
            var node = JsonNode.Parse(json)!;
            var meta = node["meta"];
            var arrival = new Arrival(
                ArrivalKind.Resource, Server, (string?)node["resourceType"], (string?)node["id"], (string?)meta?["versionId"],
                (string?)meta?["lastUpdated"] is { } stamp ? DateTimeOffset.Parse(stamp, System.Globalization.CultureInfo.InvariantCulture) : upTo, KnownBy.ServersStamp, Encoding.UTF8.GetBytes(json));
            var reading = new Core.Ports.Reading();
            _reader.Read(arrival, Ledger.Entities, reading);
            await Ledger.KeepAsync([new ReadArrival(arrival, reading)], null, default);
        }

        await Ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, upTo, null), default);
        await Ledger.KeepAsync([], new SweepCursor(SweepNames.CursorName("Patient"), upTo, null), default);
    }

    /// <summary>Judges whoever waits, as the service does.</summary>
    public async Task JudgeAsync()
    {
        var judge = new JudgeStep(Ledger, _texts, InForce, Clock, TimeSpan.FromMinutes(1));
        while (await judge.StepAsync(default) == StepResult.DidWork)
        {
        }
    }

    public Task<HookReply> AskAsync(JsonNode request, string service = HookServices.OrderSign) => AskAsync(request.ToJsonString(), service);

    /// <summary>Asks, and keeps the answer as the service does moments later.</summary>
    public async Task<HookReply> AskAsync(string request, string service = HookServices.OrderSign)
    {
        var reply = await Desk.AnswerAsync(service, Encoding.UTF8.GetBytes(request), default);
        await _book.StepAsync(default);
        return reply;
    }

    /// <summary>An order-sign request about a patient.</summary>
    public static JsonObject Sign(string patientId, IEnumerable<string> drafts, JsonObject? prefetch = null) => new()
    {
        ["hook"] = "order-sign",
        ["hookInstance"] = "6f7b2f0e-2a52-4b39-9c3e-0c2f4f0d7a11",
        ["context"] = new JsonObject
        {
            ["userId"] = "Practitioner/rt-1",
            ["patientId"] = patientId,
            ["draftOrders"] = new JsonObject
            {
                ["resourceType"] = "Bundle",
                ["type"] = "collection",
                ["entry"] = new JsonArray([.. drafts.Select(draft => (JsonNode)new JsonObject { ["resource"] = JsonNode.Parse(draft) })]),
            },
        },
        ["prefetch"] = prefetch,
    };

    public async ValueTask DisposeAsync()
    {
        await Ledger.DisposeAsync();
        _fetch.Dispose();
        _places.Dispose();
        _book.Dispose();
        _folder.Delete(recursive: true);
    }

    private sealed class AnsweringWire : HttpMessageHandler
    {
        public Dictionary<string, string> Answers { get; } = new(StringComparer.Ordinal);

        public List<(string Address, string? Authorization)> Asked { get; } = [];

        protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            Asked.Add((request.RequestUri!.AbsoluteUri, request.Headers.Authorization?.ToString()));
            var path = request.RequestUri.AbsolutePath["/fhir/".Length..] + Uri.UnescapeDataString(request.RequestUri.Query);
            var found = Answers.FirstOrDefault(answer => path.StartsWith(answer.Key, StringComparison.Ordinal));
            return Task.FromResult(found.Value is null
                ? new HttpResponseMessage(HttpStatusCode.NotFound)
                : new HttpResponseMessage(HttpStatusCode.OK) { Content = new StringContent(found.Value, Encoding.UTF8, "application/fhir+json") });
        }
    }
}
