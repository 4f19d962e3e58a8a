using System.Net;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>One Subscription for each question, over restarts, changes of address, and servers that do not do their part.</summary>
public sealed class SubscriptionStepTests : IAsyncLifetime
{
    private static readonly SweepQuery Patients = new("Patient", "Patient", []);
    private static readonly SweepQuery Rows = new("Observation-0123", "Observation", [new SweepCode("urn:s", "a")]) { Channel = "Observation-1" };

    private readonly SubscriptionServerFake _server = new();
    private readonly HttpClient _http;
    private IntakeBench _bench = null!;
    private NotifyDoor _door = null!;
    private int _tokens;

    public SubscriptionStepTests() => _http = new HttpClient(_server, disposeHandler: false);

    public async ValueTask InitializeAsync() => _bench = await IntakeBench.OpenAsync();

    public async ValueTask DisposeAsync()
    {
        _http.Dispose();
        _server.Dispose();
        await _bench.DisposeAsync();
    }

    [Fact]
    public async Task A_Subscription_is_made_once_for_each_question_and_then_only_looked_at()
    {
        var step = Step(Patients, Rows);
        await IntakeBench.SettleAsync(step);
        var writes = _server.Writes;
        for (var i = 0; i < 5; i++)
        {
            _bench.Turn(60);
            await IntakeBench.SettleAsync(step);
        }

        Assert.Equal((2, 2, 2), (_server.Stored.Count, step.Accepted, writes));
        Assert.Equal(writes, _server.Writes);
        Assert.Equal(["http://127.0.0.1:8480/notify/Patient", "http://127.0.0.1:8480/notify/Observation-1"], _server.Endpoints, StringComparer.Ordinal);
        Assert.Empty(_bench.Health.Standing);
    }

    [Fact]
    public async Task Its_token_opens_the_door_and_pulls_the_question_it_stands_for()
    {
        await IntakeBench.SettleAsync(Step(Rows));
        _bench.Board.Take(Rows.Name);

        Assert.Equal(202, _door.Answer("Observation-1", Token("1"), 0));
        Assert.True(_bench.Board.Has(Rows.Name));
    }

    [Fact]
    public async Task After_a_restart_the_same_Subscription_is_written_over_with_a_new_token()
    {
        await IntakeBench.SettleAsync(Step(Patients));
        var old = Token("1");
        await _bench.RestartAsync();
        await IntakeBench.SettleAsync(Step(Patients));

        Assert.Equal(["1"], _server.Stored.Keys, StringComparer.Ordinal);
        Assert.NotEqual(old, Token("1"), StringComparer.Ordinal);
        Assert.Equal((401, 202), (_door.Answer("Patient", old, 0), _door.Answer("Patient", Token("1"), 0)));
    }

    [Fact]
    public async Task A_changed_address_moves_the_Subscription_and_leaves_none_behind()
    {
        await IntakeBench.SettleAsync(Step(Patients));
        await _bench.RestartAsync();
        await IntakeBench.SettleAsync(Step("https://guard.example.org/", Patients));

        Assert.Equal(["https://guard.example.org/notify/Patient"], _server.Endpoints, StringComparer.Ordinal);
        Assert.Equal(["1"], _server.Stored.Keys, StringComparer.Ordinal);
    }

    [Fact]
    public async Task Changed_codes_change_its_criteria()
    {
        await IntakeBench.SettleAsync(Step(Rows));
        await _bench.RestartAsync();
        await IntakeBench.SettleAsync(Step(Rows with { Name = "Observation-4567", Codes = [new SweepCode("urn:s", "b")] }));

        Assert.Equal("Observation?code=urn%3As%7Cb", Assert.Single(_server.Stored).Value["criteria"]!.GetValue<string>());
        _bench.Board.Take("Observation-4567");
        Assert.Equal(202, _door.Answer("Observation-1", Token("1"), 0));
        Assert.True(_bench.Board.Has("Observation-4567"));
    }

    [Fact]
    public async Task What_an_earlier_run_left_without_being_remembered_is_found_by_its_address_and_one_stays()
    {
        await IntakeBench.SettleAsync(Step(Patients));
        _server.Stored["7"] = _server.Stored["1"].DeepClone();
        _server.Stored["7"]["id"] = "7";
        _server.Stored["8"] = _server.Stored["1"].DeepClone();
        _server.Stored["8"]["id"] = "8";
        _server.Stored["8"]["channel"]!["endpoint"] = "http://127.0.0.1:9999/notify/Patient";
        await _bench.RestartAsync();
        await IntakeBench.SettleAsync(Step(Patients));

        Assert.Equal(["1", "8"], _server.Stored.Keys, StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_server_that_cannot_write_over_gets_a_new_one_for_the_old()
    {
        await IntakeBench.SettleAsync(Step(Patients));
        _server.MayWriteOver = false;
        await _bench.RestartAsync();
        await IntakeBench.SettleAsync(Step(Patients));

        Assert.Equal(["2"], _server.Stored.Keys, StringComparer.Ordinal);
        Assert.Equal("2", (await _bench.Ledger.CursorAsync("subscription:Patient", Stop))!.LastId);
    }

    [Fact]
    public async Task A_channel_that_is_needed_no_more_is_taken_down()
    {
        await IntakeBench.SettleAsync(Step(Rows, Rows with { Name = "Observation-89ab", Channel = "Observation-2" }));
        await _bench.RestartAsync();
        await IntakeBench.SettleAsync(Step(Rows));

        Assert.Equal(["1"], _server.Stored.Keys, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData(HttpStatusCode.NotFound)]
    [InlineData(HttpStatusCode.MethodNotAllowed)]
    [InlineData(HttpStatusCode.BadRequest)]
    public async Task A_server_without_Subscriptions_is_said_so_once_and_asked_seldom_and_the_sweep_goes_on(HttpStatusCode status)
    {
        _server.Always = status;
        var step = Step(Patients);
        await IntakeBench.SettleAsync(step);
        var tries = _server.Asked.Count(asked => asked.StartsWith("POST", StringComparison.Ordinal));
        _bench.Turn(14 * 60);
        await IntakeBench.SettleAsync(step);
        var early = _server.Asked.Count(asked => asked.StartsWith("POST", StringComparison.Ordinal));
        var source = new SourceFake("Patient");
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Equal((1, 1, 0), (tries, early, step.Accepted));
        Assert.Equal([("subscription Patient", "AG4005")], _bench.Health.Standing);
        Assert.Equal(["Patient"], source.Asked.Select(asked => asked.Query), StringComparer.Ordinal);
        Assert.Equal(401, _door.Answer("Patient", "Bearer token-1", 0));
    }

    [Fact]
    public async Task A_server_that_is_down_for_a_while_has_its_Subscription_afterwards()
    {
        _server.Always = HttpStatusCode.ServiceUnavailable;
        var step = Step(Patients);
        await IntakeBench.SettleAsync(step);
        _server.Always = null;
        _bench.Turn(60);
        await IntakeBench.SettleAsync(step);

        Assert.Single(_server.Stored);
        Assert.Empty(_bench.Health.Standing);
    }

    [Fact]
    public async Task A_server_that_is_down_for_everything_is_not_said_to_refuse_Subscriptions()
    {
        _server.Always = HttpStatusCode.ServiceUnavailable;
        var contact = new ServerContact(_bench.Health, _bench.Options);
        var step = Step("http://127.0.0.1:8480/", contact, Patients, Rows);
        await IntakeBench.SettleAsync(step);
        contact.Unanswered("Patient", new Problem(Codes.SweepRefused, "Patient", ""), ["Patient"], false, _bench.Clock.GetUtcNow());
        await TurnMinutesAsync(step, 20);

        Assert.Equal([("server", "AG4017")], _bench.Health.Standing);
    }

    [Fact]
    public async Task A_server_that_answers_all_but_Subscriptions_is_said_so_with_the_second_try()
    {
        _server.Always = HttpStatusCode.InternalServerError;
        var step = Step("http://127.0.0.1:8480/", new ServerContact(_bench.Health, _bench.Options), Patients);
        await IntakeBench.SettleAsync(step);
        Assert.Empty(_bench.Health.Standing);
        await TurnMinutesAsync(step, 1);

        Assert.Equal([("subscription Patient", "AG4005")], _bench.Health.Standing);
    }

    [Theory]
    [InlineData("error")]
    [InlineData("off")]
    public async Task A_stopped_Subscription_is_told_of_asked_for_anew_and_what_was_missed_is_swept(string status)
    {
        var step = Step(Patients);
        await IntakeBench.SettleAsync(step);
        _bench.Board.Take("Patient");
        _server.SetAll(status);
        _bench.Turn(60);
        await IntakeBench.SettleAsync(step);
        var told = _bench.Health.Standing;
        var after = _server.Stored["1"]["status"]!.GetValue<string>();
        _bench.Turn(60);
        await IntakeBench.SettleAsync(step);

        Assert.Equal([("subscription Patient", "AG4011")], told);
        Assert.Equal("active", after);
        Assert.True(_bench.Board.Has("Patient"));
        Assert.Empty(_bench.Health.Standing);
        Assert.Equal(["1"], _server.Stored.Keys, StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_deleted_Subscription_is_made_again()
    {
        var step = Step(Patients);
        await IntakeBench.SettleAsync(step);
        _server.Stored.Clear();
        _bench.Turn(60);
        await IntakeBench.SettleAsync(step);

        Assert.Equal(["2"], _server.Stored.Keys, StringComparer.Ordinal);
        Assert.Equal(202, _door.Answer("Patient", Token("2"), 0));
    }

    [Fact]
    public async Task A_Subscription_that_is_never_activated_is_told_of_after_its_time_and_asked_for_anew_at_that_pace()
    {
        _server.Becomes = "requested";
        var step = Step(Patients);
        await IntakeBench.SettleAsync(step);
        await TurnMinutesAsync(step, 4);
        var early = _bench.Health.Standing;
        await TurnMinutesAsync(step, 1);
        var told = _bench.Health.Standing;
        var writes = _server.Writes;
        await TurnMinutesAsync(step, 4);

        Assert.Empty(early);
        Assert.Equal([("subscription Patient", "AG4012")], told);
        Assert.Equal((2, 2), (writes, _server.Writes));
    }

    [Fact]
    public async Task One_that_is_activated_after_all_is_told_of_no_more()
    {
        _server.Becomes = "requested";
        var step = Step(Patients);
        await IntakeBench.SettleAsync(step);
        await TurnMinutesAsync(step, 5);
        _server.SetAll("active");
        await TurnMinutesAsync(step, 1);

        Assert.Empty(_bench.Health.Standing);
    }

    [Fact]
    public async Task A_server_that_never_activates_takes_it_as_active_where_that_is_configured()
    {
        (_server.Becomes, _bench.Options.SubscriptionStatus) = ("requested", "active");
        var step = Step(Patients);
        await IntakeBench.SettleAsync(step);
        await TurnMinutesAsync(step, 10);

        Assert.Equal("active", _server.Stored["1"]["status"]!.GetValue<string>());
        Assert.Empty(_bench.Health.Standing);
    }

    [Fact]
    public async Task Once_a_server_that_refused_everything_answers_again_every_Subscription_is_asked_for_at_once()
    {
        _server.Always = HttpStatusCode.Forbidden;
        var contact = new ServerContact(_bench.Health, _bench.Options);
        var step = Step("http://127.0.0.1:8480/", contact, Patients);
        contact.Unanswered("Patient", new Problem(Codes.SweepRefused, "Patient", "HTTP 403"), ["Patient"], false, _bench.Clock.GetUtcNow(), 403);
        await TurnMinutesAsync(step, 2);
        var during = _server.Writes;
        _server.Always = null;
        contact.Answered(_bench.Clock.GetUtcNow());
        await IntakeBench.SettleAsync(step);

        Assert.Equal((1, 1), (during, _server.Stored.Count));
        Assert.Empty(_bench.Health.Standing);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private SubscriptionStep Step(params SweepQuery[] queries) => Step("http://127.0.0.1:8480/", queries);

    private SubscriptionStep Step(string ownAddress, params SweepQuery[] queries) => Step(ownAddress, null, queries);

    private SubscriptionStep Step(string ownAddress, ServerContact? contact, params SweepQuery[] queries)
    {
        _door = new NotifyDoor(_bench.Board, _bench.Health, _bench.Clock);
        return new SubscriptionStep(
            new SubscriptionClient(_http, new FhirGate(new Uri("https://ehr.example.org/fhir/"), [])), _bench.Ledger, queries, _door, new Uri(ownAddress),
            _bench.Options, () => $"token-{++_tokens}", _bench.Board, _bench.Health, _bench.Clock, NullLogger<SubscriptionStep>.Instance, contact);
    }

    private string Token(string id) => _server.Stored[id]["channel"]!["header"]![0]!.GetValue<string>()["Authorization: ".Length..];

    private async Task TurnMinutesAsync(SubscriptionStep step, int minutes)
    {
        for (var i = 0; i < minutes; i++)
        {
            _bench.Turn(60);
            await IntakeBench.SettleAsync(step);
        }
    }
}
