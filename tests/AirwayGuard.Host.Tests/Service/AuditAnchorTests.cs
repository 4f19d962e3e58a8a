using System.Globalization;
using System.Net;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Anchoring;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Host.Service;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Judging;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

public sealed class AuditAnchorTests : IAsyncDisposable
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    private readonly SetClock _clock = new(Charted.Morning);
    private readonly Gateway _gateway = new();
    private readonly HttpClient _client;

    public AuditAnchorTests() => _client = new HttpClient(_gateway);

    public ValueTask DisposeAsync()
    {
        _client.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task EveryFiveMinutes_TheHeadIsAnchoredOnTheServer()
    {
        await using var service = await GivenService.StartAsync("demo");
        using var anchor = Anchor(service);

        Assert.Equal(StepResult.DidWork, await anchor.StepAsync(Stop));
        _clock.Now += TimeSpan.FromSeconds(299);
        Assert.Equal(StepResult.Idle, await anchor.StepAsync(Stop));
        _clock.Now += TimeSpan.FromSeconds(1);
        Assert.Equal(StepResult.DidWork, await anchor.StepAsync(Stop));

        Assert.Equal(await TrailAsync(service), await AnchoredAsync(service));
    }

    [Fact]
    public async Task AnAnchorWhoseAnswerWasLost_StandsOnce()
    {
        await using var service = await GivenService.StartAsync("demo");
        using var anchor = Anchor(service);
        _gateway.LosesAnswers = true;
        await anchor.StepAsync(Stop);
        _gateway.LosesAnswers = false;
        Assert.Equal(StepResult.Idle, await anchor.StepAsync(Stop));

        _clock.Now += TimeSpan.FromSeconds(30);
        Assert.Equal(StepResult.DidWork, await anchor.StepAsync(Stop));
        Assert.Equal(StepResult.Idle, await anchor.StepAsync(Stop));

        Assert.Equal(2, _gateway.Posts);
        Assert.Single(await AnchoredAsync(service));
        Assert.Contains("\"total\":1", await service.TextAsync("/fhir/AuditEvent?_summary=count"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ASilentService_AnchorsInItsLogOnly()
    {
        await using var service = await GivenService.StartAsync("demo", "AirwayGuard:Mode=silent");
        using var anchor = Anchor(service);

        await anchor.StepAsync(Stop);

        Assert.Equal(0, _gateway.Posts);
        Assert.Single(await TrailAsync(service));
    }

    [Fact]
    public async Task Verify_TakesTheAnchorsOfTheServer_WhileTheServiceRuns()
    {
        await using var service = await GivenService.StartAsync("demo");
        using var anchor = Anchor(service);
        await anchor.AnchorAsync(Stop);
        await service.Ledger.AuditAsync([new AuditNote("invented", "audit", "{}", default)], _clock.Now, Stop);

        var (exit, output, errors) = await InProcessCheck.RunAsync(["audit", "verify", "--data", service.Folder, "--anchors", service.Root + "/fhir"]);

        Assert.Equal((0, ""), (exit, errors));
        Assert.StartsWith("sound: 3 entries hold together; 1 anchors; nothing outside vouches for the last 1.", output, StringComparison.Ordinal);
        Assert.Contains("AG6005", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_FindsATrailThatWasReplaced_ByTheAnchorsOfTheServer()
    {
        await using var service = await GivenService.StartAsync("demo");
        await service.Ledger.AuditAsync([new AuditNote("invented", "audit", "{}", default)], _clock.Now, Stop);
        Assert.Null(await Store(service).WriteAsync(new AuditHead(1, 1, new string('a', 64)), _clock.Now, Stop));

        var (exit, output, _) = await InProcessCheck.RunAsync(["audit", "verify", "--data", service.Folder, "--anchors", service.Root + "/fhir"]);

        Assert.Equal(1, exit);
        Assert.StartsWith("not sound", output, StringComparison.Ordinal);
        Assert.Contains("AG6004", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnchorsOfTheServerOfAnotherLedger_SayNothingAgainstThisTrail()
    {
        await using var service = await GivenService.StartAsync("demo");
        Assert.Null(await service.Ledger.BindAsync("https://ehr.example.org/fhir", "https://ehr.example.org/fhir", Stop));
        Assert.Null(await Store(service).WriteAsync(new AuditHead(1, 1, new string('a', 64)), _clock.Now, Stop));

        var (exit, output, errors) = await InProcessCheck.RunAsync(["audit", "verify", "--data", service.Folder, "--anchors", service.Root + "/fhir"]);

        Assert.Equal(2, exit);
        Assert.StartsWith("sound: 2 entries hold together; 0 anchors;", output, StringComparison.Ordinal);
        Assert.StartsWith("AG6009  --anchors: Not one of 1 is of this trail, and this ledger is bound to another server.", errors, StringComparison.Ordinal);
        Assert.DoesNotContain("AG6004", output, StringComparison.Ordinal);
    }

    // Whoever puts another trail in the place of the anchored one would have anchors that do not fit, too.
    [Fact]
    public async Task WhereNotOneAnchorFits_BothThatItMayBeAreSaid()
    {
        await using var service = await GivenService.StartAsync("demo");
        Assert.Null(await service.Ledger.BindAsync(service.Root + "/fhir", service.Root + "/fhir", Stop));
        using var folder = new Commands.GivenFolder();
        var file = folder.File("log", $"x Audit anchor: chain 1 entry 1 hash {new string('a', 64)}");
        Assert.Null(await Store(service).WriteAsync(new AuditHead(1, 1, new string('a', 64)), _clock.Now, Stop));

        foreach (var anchors in new[] { file, service.Root + "/fhir" })
        {
            var (exit, output, _) = await InProcessCheck.RunAsync(["audit", "verify", "--data", service.Folder, "--anchors", anchors]);
            Assert.Equal(1, exit);
            Assert.Contains("AG6004  audit entry 1: Not one anchor fits: they are of another ledger, or the whole trail was put in place of another one.", output, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("http://127.0.0.1:9/fhir", "AG6007")]
    [InlineData("http://ehr.example.org/fhir", "AG1001")]
    [InlineData("no-such-file", "AG6008")]
    public async Task Verify_WithoutTheAnchorsItWasGiven_CouldNotRead(string anchors, string code)
    {
        await using var service = await GivenService.StartAsync("demo");

        var (exit, output, errors) = await InProcessCheck.RunAsync(["audit", "verify", "--data", service.Folder, "--anchors", anchors]);

        Assert.Equal((2, ""), (exit, output));
        Assert.StartsWith(code + "  --anchors", errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("log", "AG6008  --anchors: no line of the file holds an anchor. ")]
    [InlineData(".", "AG6008  --anchors: it is a folder. ")]
    public async Task Verify_DoesNotTakeAWrongFile_ForNoAnchors(string name, string said)
    {
        await using var service = await GivenService.StartAsync();
        await File.WriteAllTextAsync(Path.Combine(service.Folder, "log"), "09:00:00Z INF Something else\n", Stop);

        var (exit, output, errors) = await InProcessCheck.RunAsync(["audit", "verify", "--data", service.Folder, "--anchors", Path.Combine(service.Folder, name)]);

        Assert.Equal((2, ""), (exit, output));
        Assert.StartsWith(said, errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("none", "AG1606  --data: there is no such folder. Give the service's data folder")]
    [InlineData("empty", "AG1606  --data: the folder holds no ledger. Give the service's data folder")]
    [InlineData("begun", "AG1606  --data: There is no ledger in the folder. Give the service's data folder")]
    public async Task Verify_WithoutALedger_AsksForTheDataFolder(string folder, string said)
    {
        using var given = new Commands.GivenFolder();
        Directory.CreateDirectory(given.Of("empty"));
        Directory.CreateDirectory(given.Of("begun/ledger"));

        var (exit, output, errors) = await InProcessCheck.RunAsync(["audit", "verify", "--data", given.Of(folder)]);

        Assert.Equal((2, ""), (exit, output));
        Assert.StartsWith(said, errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("readable")]
    [InlineData("compact")]
    public async Task Verify_ReadsTheAnchorsOfALog_InEitherForm(string form)
    {
        await using var service = await GivenService.StartAsync("demo", "AirwayGuard:Mode=silent", "AirwayGuard:Log=" + form);
        await service.Services.GetRequiredService<AuditAnchor>().AnchorAsync(Stop);
        await File.WriteAllTextAsync(Path.Combine(service.Folder, "log"), service.Log, Stop);

        var (exit, output, _) = await InProcessCheck.RunAsync(["audit", "verify", "--data", service.Folder, "--anchors", Path.Combine(service.Folder, "log")]);

        Assert.Equal(0, exit);
        Assert.StartsWith("sound: 1 entries hold together; 1 anchors; nothing outside vouches for the last 0.", output, StringComparison.Ordinal);
    }

    private AuditAnchor Anchor(GivenService service) =>
        new(service.Services.GetRequiredService<BasisInForce>(), service.Ledger, Store(service), _clock, NullLogger<AuditAnchor>.Instance);

    private AuditAnchorStore Store(GivenService service) => new(new FhirHttp(_client, new FhirGate(new Uri(service.Root + "/fhir"), []), _clock));

    private async Task<IReadOnlyList<string>> AnchoredAsync(GivenService service)
    {
        var (heads, code) = await Store(service).ReadAsync(Stop);
        Assert.Null(code);
        return [.. heads!.OrderBy(head => head.Number).Select(AuditAnchorEvent.ValueOf)];
    }

    // Without the demo's own promotion, which comes before any anchor.
    private static async Task<List<string>> TrailAsync(GivenService service)
    {
        var trail = new List<string>();
        await foreach (var entry in service.Ledger.AuditTrailAsync(Stop).Where(static entry => entry.What != "signed-off"))
        {
            trail.Add(string.Create(CultureInfo.InvariantCulture, $"{entry.Chain}-{entry.Number}-{entry.Hash}"));
        }

        return trail;
    }

    private sealed class Gateway() : DelegatingHandler(new SocketsHttpHandler { UseProxy = false })
    {
        public bool LosesAnswers { get; set; }

        public int Posts { get; private set; }

        protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            Posts += request.Method == HttpMethod.Post ? 1 : 0;
            var answer = await base.SendAsync(request, cancellationToken);
            if (!LosesAnswers)
            {
                return answer;
            }

            Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
            answer.Dispose();
            throw new HttpRequestException(HttpRequestError.ConnectionError);
        }
    }
}
