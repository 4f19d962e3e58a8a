using System.Net;
using System.Text.Json;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Host.Tests.DemoWard;

public sealed class WardLoaderTests : IDisposable
{
    private static readonly Uri Address = new("http://localhost/fhir/");
    private static readonly IReadOnlyList<WardResource> Plan = WardPlan.Build(WardJudging.End, 1);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("ward-");
    private readonly SandboxRepository _repository;
    private readonly CountingHandler _wire;
    private readonly HttpClient _client;

    public WardLoaderTests()
    {
        var clock = new StandingClock(WardJudging.End);
        _repository = new SandboxRepository(Unflushed.Sandbox(_folder.FullName), clock);
        _wire = new CountingHandler(new SandboxHandler(new SandboxServer(_repository, clock)));
        _client = new HttpClient(_wire);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        _client.Dispose();
        _repository.Dispose();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task The_whole_ward_is_loaded_in_transactions_of_at_most_200_and_only_once()
    {
        var told = new List<(int Sent, int Of)>();
        var first = await new WardLoader(_client, Address).LoadAsync(Plan, (sent, of) => told.Add((sent, of)), Stop);
        Assert.Equal(new WardLoading(WardOutcome.Loaded, Plan.Count), first);
        Assert.Equal((Plan.Count + 199) / 200, told.Count);
        Assert.Equal((200, Plan.Count), told[0]);
        Assert.Equal((Plan.Count, Plan.Count), told[^1]);
        foreach (var one in Plan)
        {
            Assert.Equal(1, Assert.IsType<StoredVersion>(_repository.Read(one.Type, one.Id), exactMatch: false).VersionId);
        }

        var posts = _wire.Posts;
        var second = await new WardLoader(_client, Address).LoadAsync(Plan, (_, _) => Assert.Fail("nothing is sent"), Stop);
        Assert.Equal((WardOutcome.AlreadyThere, posts), (second.Outcome, _wire.Posts));
    }

    [Fact]
    public async Task A_correction_becomes_the_second_version()
    {
        var loader = new WardLoader(_client, Address);
        var corrections = WardPlan.Corrections(WardJudging.End, 1);
        await loader.SendAsync([.. Plan.Where(one => one.Type == corrections[0].Type && one.Id == corrections[0].Id)], (_, _) => { }, Stop);
        var loading = await loader.SendAsync(corrections, (_, _) => { }, Stop);
        Assert.Equal(new WardLoading(WardOutcome.Loaded, 1), loading);
        Assert.Equal(2, _repository.Read("Observation", corrections[0].Id)!.VersionId);
    }

    [Fact]
    public async Task A_load_that_broke_off_is_done_again_from_the_start()
    {
        IReadOnlyList<WardResource> part = [.. Plan.Take(450), Plan[^1]];
        _wire.RefuseFromPost = 3;
        var first = await new WardLoader(_client, Address).LoadAsync(part, (_, _) => { }, Stop);
        Assert.Equal(new WardLoading(WardOutcome.Refused, 400, HttpStatusCode.ServiceUnavailable), first);
        _wire.RefuseFromPost = int.MaxValue;
        var second = await new WardLoader(_client, Address).LoadAsync(part, (_, _) => { }, Stop);
        Assert.Equal(new WardLoading(WardOutcome.Loaded, part.Count), second);
    }

    [Fact]
    public async Task A_server_that_does_not_answer_is_told_and_no_exception()
    {
        _wire.IsDead = true;
        Assert.Equal(new WardLoading(WardOutcome.NoAnswer, 0), await new WardLoader(_client, Address).LoadAsync(Plan, (_, _) => { }, Stop));
    }

    [Fact]
    public async Task A_client_that_waited_too_long_had_no_answer_but_a_wish_to_stop_stops()
    {
        _wire.IsSlow = true;
        Assert.Equal(WardOutcome.NoAnswer, (await new WardLoader(_client, Address).LoadAsync(Plan, (_, _) => { }, Stop)).Outcome);
        using var wish = new CancellationTokenSource();
        await wish.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => new WardLoader(_client, Address).LoadAsync(Plan, (_, _) => { }, wish.Token));
    }

    [Fact]
    public async Task Entries_are_updates_under_our_own_ids()
    {
        await new WardLoader(_client, Address).SendAsync([.. Plan.Take(2)], (_, _) => { }, Stop);
        var bundle = JsonElement.Parse(_wire.LastBody);
        Assert.Equal("transaction", bundle.GetProperty("type").GetString());
        Assert.Equal(
            Plan.Take(2).Select(one => $"PUT {one.Type}/{one.Id}"),
            bundle.GetProperty("entry").EnumerateArray().Select(entry => $"{entry.GetProperty("request").GetProperty("method")} {entry.GetProperty("request").GetProperty("url")}"),
            StringComparer.Ordinal);
    }

    private sealed class StandingClock(DateTimeOffset now) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => now;
    }

    private sealed class CountingHandler(HttpMessageHandler inner) : DelegatingHandler(inner)
    {
        public int Posts { get; private set; }

        public int RefuseFromPost { get; set; } = int.MaxValue;

        public bool IsDead { get; set; }

        public bool IsSlow { get; set; }

        public byte[] LastBody { get; private set; } = [];

        protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            if (IsDead)
            {
                throw new HttpRequestException("no answer");
            }

            if (IsSlow)
            {
                throw new TaskCanceledException("timed out");
            }

            if (request.Method == HttpMethod.Post)
            {
                LastBody = await request.Content!.ReadAsByteArrayAsync(cancellationToken);
                if (++Posts >= RefuseFromPost)
                {
                    return new HttpResponseMessage(HttpStatusCode.ServiceUnavailable);
                }
            }

            return await base.SendAsync(request, cancellationToken);
        }
    }
}
