using System.Globalization;
using System.Net;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary><c>parked</c>: what the server refused, listed beside the running service, put back or dropped while it is stopped.</summary>
public sealed class ParkedCommandTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        _bench.Wire.Fault = (request, pass) => request.Method == HttpMethod.Post && request.RequestUri!.AbsolutePath.EndsWith("/Flag", StringComparison.Ordinal)
            ? Task.FromResult(new HttpResponseMessage(HttpStatusCode.UnprocessableEntity))
            : pass();
        await _bench.RoundAsync();
        _bench.Wire.Fault = null;
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task WhatTheServerRefusedIsListedAndShown_WhileTheServiceRuns()
    {
        var (exit, list, errors) = await RunAsync("list");
        var (shown, page, _) = await RunAsync("show", await NumberAsync());

        Assert.Equal((0, 0, ""), (exit, shown, errors));
        Assert.Matches("^[0-9]+  AG5105  message [0-9a-f-]{36}  first 2026-03-02T09:00:00Z, last 2026-03-02T09:00:00Z  Server does not accept the content", list);
        Assert.Contains("1 parked.", list, StringComparison.Ordinal);
        Assert.All(["Code        AG5105", "First try   2026-03-02T09:00:00Z", "To do       Compare the resource", "(audit entry "], words => Assert.Contains(words, page, StringComparison.Ordinal));
        Assert.DoesNotContain("220", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhileTheServiceRuns_NothingIsPutBackOrDropped()
    {
        var number = await NumberAsync();

        var (retry, _, said) = await RunAsync("retry", number);
        var (drop, _, told) = await RunAsync("drop", number, "--reason", "not wanted");

        Assert.Equal((2, 2), (retry, drop));
        Assert.All([said, told], words => Assert.StartsWith("AG5003  --data: The service holds this ledger. A ledger has one writer: stop the service", words, StringComparison.Ordinal));
        Assert.Equal(number, await NumberAsync());
    }

    [Fact]
    public async Task WhatIsPutBackGoesOutWithTheNextStart()
    {
        var number = await NumberAsync();
        await _bench.StopAsync();

        var (exit, said, _) = await RunAsync("retry", number);
        await _bench.RestartAsync();
        await _bench.RoundAsync();

        Assert.Equal(0, exit);
        Assert.StartsWith($"{number} put back", said, StringComparison.Ordinal);
        Assert.Single(await _bench.AllAsync("Flag"));
        Assert.Empty(await _bench.Ledger.ParkedAsync(Stop));
    }

    [Fact]
    public async Task EverythingThatIsParkedIsPutBackAtOnce_EachOnRecord()
    {
        await _bench.Ledger.ParkAsync(new ParkedItem(null, null, "AG4009", "rows", _bench.Clock.Now), Stop);
        await _bench.StopAsync();

        var (exit, said, errors) = await RunAsync("retry", "--all");
        var (again, nothing, _) = await RunAsync("retry", "--all");
        await _bench.RestartAsync();
        await _bench.RoundAsync();

        Assert.Equal((0, 2, ""), (exit, said.Split("put back").Length - 1, errors));
        Assert.Equal((0, "Nothing is set aside."), (again, nothing.Trim()));
        Assert.Single(await _bench.AllAsync("Flag"));
        Assert.Equal(2, (await _bench.AuditAsync("parked-retried")).Count);
        Assert.Empty(await _bench.Ledger.ParkedAsync(Stop));
    }

    [Fact]
    public async Task WhatCannotBePutBackHoldsUpNothingElse_AndIsTold()
    {
        var arrival = new Arrival(ArrivalKind.Resource, "https://ehr.example/fhir", "Observation", "x", "1", _bench.Clock.Now, KnownBy.Received, "{"u8.ToArray());
        var reading = new Reading { Self = _bench.Ledger.Intern("Observation/x"), Readable = false };
        reading.Problems.Add(new Problem(Codes.ArrivalUnreadable, "resource", "It could not be read."));
        await _bench.Ledger.KeepAsync([new ReadArrival(arrival, reading)], null, Stop);
        await _bench.StopAsync();

        var (exit, said, errors) = await RunAsync("retry", "--all");
        await _bench.RestartAsync();

        Assert.Equal((2, 1), (exit, said.Split("put back").Length - 1));
        Assert.Matches("^AG5004  ID [0-9]+: It could not be read now either", errors);
        Assert.Single(await _bench.Ledger.ParkedAsync(Stop));
    }

    [Fact]
    public async Task WhileTheServiceRuns_AllIsRefusedAndSaysThatItMustBeStopped()
    {
        var (exit, said, errors) = await RunAsync("retry", "--all");

        Assert.Equal((2, ""), (exit, said));
        Assert.StartsWith("AG5003  --data: The service holds this ledger. A ledger has one writer: stop the service, retry or drop, and start it again", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatIsDroppedStaysUnsent_AndTheReasonIsInTheTrail()
    {
        var number = await NumberAsync();
        await _bench.StopAsync();

        var (exit, _, _) = await RunAsync("drop", number, "--reason", "Flags are not used on this ward");
        await _bench.RestartAsync();
        await _bench.RoundAsync();

        Assert.Equal(0, exit);
        Assert.Empty(await _bench.AllAsync("Flag"));
        Assert.Empty(await _bench.Ledger.ParkedAsync(Stop));
        Assert.Contains("Flags are not used on this ward", Assert.Single(await _bench.AuditAsync("parked-dropped")).Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task APatientWhoseFileCouldNotBeJudged_IsListedShownAndPutBack()
    {
        await _bench.Ledger.KeepAsync([Charted.Vacuum(_bench.Ledger, "o2", "1", "Patient/p", 230, 20, 20)], null, Stop);
        var work = (await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop))!;
        await _bench.Ledger.FailAsync(new FailedJudgement(work.Patient, work.Fence, "AG4014", _bench.Clock.Now, null), Stop);
        var number = (await _bench.Ledger.ParkedEntriesAsync(Stop)).Single(entry => entry.Item.Code == "AG4014").Number.ToString(CultureInfo.InvariantCulture);

        var (_, list, _) = await RunAsync("list");
        var (_, page, _) = await RunAsync("show", number);
        await _bench.StopAsync();
        var (exit, said, _) = await RunAsync("retry", number);
        await _bench.RestartAsync();

        Assert.Contains("AG4014  judging of Patient/p  first 2026-03-02T09:00:00Z, last 2026-03-02T09:00:00Z  A patient's file could not be judged", list, StringComparison.Ordinal);
        Assert.All(["Code        AG4014", "(audit entry ", "Then retry it, or drop it"], words => Assert.Contains(words, page, StringComparison.Ordinal));
        Assert.Equal((0, $"{number} put back: its patient is judged once the service runs."), (exit, said.Trim()));
        Assert.DoesNotContain(await _bench.Ledger.ParkedAsync(Stop), item => item.Code == "AG4014");
        Assert.Equal(StepResult.DidWork, await _bench.Judge.StepAsync(Stop));
    }

    [Fact]
    public async Task ANumberThatIsNotParkedHasACode()
    {
        await _bench.StopAsync();
        string[][] verbs = [["show", "999"], ["retry", "999"], ["drop", "999", "--reason", "none"]];

        foreach (var verb in verbs)
        {
            var (exit, _, errors) = await RunAsync(verb);
            Assert.Equal(2, exit);
            Assert.StartsWith("AG5002  ID: ", errors, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task WhileTheServiceRuns_ANumberThatIsNotParkedIsSaidSo_AndWhereTheNumbersAre()
    {
        var (exit, _, errors) = await RunAsync("retry", "999");

        Assert.Equal(2, exit);
        Assert.StartsWith("AG5002  ID: Nothing of this number is set aside. airwayguard parked list names what is parked", errors, StringComparison.Ordinal);
    }

    // What a malformed resource has for a type is its source's own text.
    [Fact]
    public async Task WhatIsNoTypeOrIdOfR4_IsNotPrinted()
    {
        var arrival = new Arrival(ArrivalKind.Resource, "https://ehr.example/fhir", "Jane Doe 1961", "ward 3 bed 4", "by Dr Example", _bench.Clock.Now, KnownBy.Received, "{"u8.ToArray());
        var reading = new Reading { Self = _bench.Ledger.Intern("Observation/unread"), Readable = false };
        reading.Problems.Add(new Problem(Codes.ArrivalUnreadable, "resource", "It could not be read."));
        await _bench.Ledger.KeepAsync([new ReadArrival(arrival, reading)], null, Stop);
        var number = (await _bench.Ledger.ParkedEntriesAsync(Stop)).Single(entry => entry.Item.Arrival is not null).Number.ToString(CultureInfo.InvariantCulture);

        var (_, list, _) = await RunAsync("list");
        var (_, page, _) = await RunAsync("show", number);

        Assert.Contains("(not an R4 type)", list, StringComparison.Ordinal);
        Assert.Contains("Arrival     not an R4 type/(not an R4 id) version (not an R4 id), known ", page, StringComparison.Ordinal);
        Assert.All(["Jane", "bed", "Dr"], words => Assert.DoesNotContain(words, list + page, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("drop", "1")]
    [InlineData("drop", "1", "--reason", "  ")]
    [InlineData("show")]
    [InlineData("retry", "first")]
    [InlineData("retry")]
    [InlineData("retry", "1", "--all")]
    [InlineData("mend", "1")]
    public async Task AnythingElseIsWrongUsage(params string[] verb) => Assert.Equal(64, (await RunAsync(verb)).Exit);

    private async Task<string> NumberAsync() => Assert.Single(await _bench.Ledger.ParkedEntriesAsync(Stop)).Number.ToString(CultureInfo.InvariantCulture);

    private async Task<(int Exit, string Stdout, string Stderr)> RunAsync(params string[] verb) =>
        await InProcessCheck.RunAsync(["parked", .. verb, "--data", _bench.DataFolder]);
}
