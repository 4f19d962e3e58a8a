using System.Net;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.WriteBack;
using Xunit;

namespace AirwayGuard.Fhir.Tests.WriteBack;

/// <summary>Answers lost, conflicts and refusals: one resource and one Provenance per version come out all the same.</summary>
public sealed class LostAnswerTests : IDisposable
{
    private readonly SinkBench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task ACreateWhoseAnswerIsLost_IsFoundByIdentifierAtOnce()
    {
        _bench.Server.LosesAnswerOnce(HttpMethod.Post, "DetectedIssue", apply: true);
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal((SendState.Confirmed, "1"), (answer.State, answer.Server!.Version));
        Assert.False(answer.ChangedByPerson);
        AssertOneOfEach();
    }

    [Fact]
    public async Task ACreateThatNeverArrived_IsUnknown_AndSearchedBeforeItIsTriedAgain()
    {
        _bench.Server.LosesAnswerOnce(HttpMethod.Post, "DetectedIssue", apply: false);
        var answer = await _bench.SendAsync(Some.Issue);
        _bench.Server.Asked.Clear();
        var again = await _bench.SendAsync(Some.Issue);

        Assert.Equal((SendState.Unknown, "AG5109"), (answer.State, answer.Code));
        Assert.Equal(SendState.Confirmed, again.State);
        Assert.StartsWith("GET DetectedIssue?identifier", _bench.Server.Asked[0], StringComparison.Ordinal);
        AssertOneOfEach();
    }

    [Fact]
    public async Task AnUpdateWhoseAnswerIsLost_IsRecognisedAsOursAndNotAsAPersons()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.LosesAnswerOnce(HttpMethod.Put, "DetectedIssue", apply: true);
        var lost = await _bench.SendAsync(Some.Amended);
        _bench.Restart();
        var again = await _bench.SendAsync(Some.Amended);

        Assert.Equal(SendState.Unknown, lost.State);
        Assert.Equal((SendState.Confirmed, "2"), (again.State, again.Server!.Version));
        Assert.False(again.ChangedByPerson);
        Assert.Equal(2, _bench.Server.All("Provenance").Count());
    }

    [Fact]
    public async Task ALostUpdateOvertakenByANewerMessage_StillGetsItsProvenance()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.LosesAnswerOnce(HttpMethod.Put, "DetectedIssue", apply: true);
        await _bench.SendAsync(Some.Amended);
        var newer = await _bench.SendAsync(Some.Withdrawn);

        Assert.Equal("3", newer.Server!.Version);
        Assert.Equal("entered-in-error", _bench.Server.Only("DetectedIssue")["status"]!.GetValue<string>());
        Assert.Equal(
            "CREATE 1, UPDATE 2, NULLIFY 3",
            string.Join(", ", _bench.Server.All("Provenance").Select(one => $"{one["activity"]!["coding"]![0]!["code"]} {one["target"]![0]!["reference"]!.GetValue<string>()[^1]}")));
    }

    [Fact]
    public async Task AProvenanceWhoseAnswerIsLost_IsNotDoubled()
    {
        _bench.Server.LosesAnswerOnce(HttpMethod.Post, "Provenance", apply: true);
        var lost = await _bench.SendAsync(Some.Issue);
        _bench.Restart();
        var again = await _bench.SendAsync(Some.Issue);

        Assert.Equal(SendState.Unknown, lost.State);
        Assert.Equal(SendState.Confirmed, again.State);
        AssertOneOfEach();
    }

    [Fact]
    public async Task AProvenanceThatNeverArrived_IsWrittenOnTheNextTry_AsOfACreation()
    {
        _bench.Server.LosesAnswerOnce(HttpMethod.Post, "Provenance", apply: false);
        await _bench.SendAsync(Some.Issue);
        await _bench.SendAsync(Some.Issue);

        AssertOneOfEach();
        Assert.Equal("CREATE", _bench.Server.Only("Provenance")["activity"]!["coding"]![0]!["code"]!.GetValue<string>());
    }

    [Fact]
    public async Task AServerThatStripsVersionsFromReferences_GetsNoSecondProvenance()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.ChangeByPerson("Provenance", one => one["target"]![0]!["reference"] = one["target"]![0]!["reference"]!.GetValue<string>().Split("/_history")[0]);
        await _bench.SendAsync(Some.Issue);

        AssertOneOfEach();
    }

    [Theory]
    [InlineData(HttpStatusCode.Conflict)]
    [InlineData(HttpStatusCode.PreconditionFailed)]
    public async Task AVersionConflict_IsReadAgainAndDecidedOnce(HttpStatusCode status)
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.Once(HttpMethod.Put, "DetectedIssue", status);
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal((SendState.Confirmed, "2"), (answer.State, answer.Server!.Version));
    }

    [Theory]
    [InlineData(HttpStatusCode.Conflict)]
    [InlineData(HttpStatusCode.PreconditionFailed)]
    public async Task AConflictTwice_IsLeftForLater(HttpStatusCode status)
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.Once(HttpMethod.Put, "DetectedIssue", status);
        _bench.Server.Once(HttpMethod.Put, "DetectedIssue", status);
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal((SendState.Unknown, "AG5114"), (answer.State, answer.Code));
        Assert.Equal("final", _bench.Server.Only("DetectedIssue")["status"]!.GetValue<string>());
    }

    [Fact]
    public async Task APersonsChangeThatComesBetweenReadAndWrite_IsNotOverwritten()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.Once(request => request.Method == HttpMethod.Put, () =>
        {
            _bench.Server.ChangeByPerson("DetectedIssue", issue => issue["severity"] = "low");
            return new HttpResponseMessage(HttpStatusCode.PreconditionFailed);
        });
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.True(answer.ChangedByPerson);
        Assert.Equal("low", _bench.Server.Only("DetectedIssue")["severity"]!.GetValue<string>());
    }

    [Theory]
    [InlineData(HttpStatusCode.Unauthorized, SendState.Unknown, "AG5103")]
    [InlineData(HttpStatusCode.Forbidden, SendState.Parked, "AG5104")]
    [InlineData(HttpStatusCode.UnprocessableEntity, SendState.Parked, "AG5105")]
    [InlineData(HttpStatusCode.BadRequest, SendState.Parked, "AG5105")]
    [InlineData(HttpStatusCode.NotFound, SendState.Parked, "AG5106")]
    [InlineData(HttpStatusCode.MethodNotAllowed, SendState.Parked, "AG5106")]
    [InlineData(HttpStatusCode.TooManyRequests, SendState.Unknown, "AG5107")]
    [InlineData(HttpStatusCode.InternalServerError, SendState.Unknown, "AG5108")]
    [InlineData(HttpStatusCode.BadGateway, SendState.Unknown, "AG5109")]
    [InlineData(HttpStatusCode.MovedPermanently, SendState.Parked, "AG5102")]
    public async Task ARefusedCreate_IsParkedOrTriedAgain(HttpStatusCode status, SendState state, string code)
    {
        _bench.Server.Once(HttpMethod.Post, "DetectedIssue", status);
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal((state, code), (answer.State, answer.Code));
        Assert.Empty(_bench.Server.All("DetectedIssue"));
    }

    [Fact]
    public async Task ABusyServersWait_IsHandedOn()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.Once(request => request.Method == HttpMethod.Put, () =>
        {
            var response = new HttpResponseMessage(HttpStatusCode.ServiceUnavailable);
            response.Headers.TryAddWithoutValidation("Retry-After", _bench.Clock.GetUtcNow().AddMinutes(2).ToString("R"));
            return response;
        });
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal((SendState.Unknown, TimeSpan.FromMinutes(2)), (answer.State, answer.RetryAfter));
        Assert.Equal("1", answer.Server!.Version);
    }

    [Fact]
    public async Task AProvenanceTheServerRefuses_IsParkedUnderItsOwnCode_AndOffItIsNotSent()
    {
        _bench.Server.Once(HttpMethod.Post, "Provenance", HttpStatusCode.Forbidden);
        var answer = await _bench.SendAsync(Some.Issue);
        _bench.Options.WriteProvenance = false;
        var without = await _bench.SendAsync(Some.Issue);

        Assert.Equal((SendState.Parked, "AG5205"), (answer.State, answer.Code));
        Assert.Equal(SendState.Confirmed, without.State);
        Assert.Empty(_bench.Server.All("Provenance"));
    }

    [Fact]
    public async Task AnAuthorTheServerRefuses_StopsTheFinding()
    {
        _bench.Server.Once(HttpMethod.Post, "Device", HttpStatusCode.Forbidden);
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal((SendState.Parked, "AG5206"), (answer.State, answer.Code));
        Assert.Empty(_bench.Server.All("DetectedIssue"));
    }

    [Fact]
    public async Task AServerWithoutVersions_TakesANewFindingButNoUpdate()
    {
        _bench.Server.ForgetsVersions = true;
        var created = await _bench.SendAsync(Some.Issue);
        var amended = await _bench.SendAsync(Some.Amended);

        Assert.Equal((SendState.Confirmed, ""), (created.State, created.Server!.Version));
        Assert.Equal((SendState.Parked, "AG5202"), (amended.State, amended.Code));
        Assert.Equal("final", _bench.Server.Only("DetectedIssue")["status"]!.GetValue<string>());
    }

    [Fact]
    public async Task AnIdThatNowNamesSomethingElse_IsNotWrittenOver()
    {
        var answer = await _bench.SendAsync(Some.Issue);
        _bench.Server.Put($$"""{"resourceType":"DetectedIssue","id":"{{answer.Server!.Id}}","status":"final","identifier":[{"system":"urn:other","value":"1"}]}""");
        var again = await _bench.SendAsync(Some.Amended);

        Assert.Equal((true, false), (again.ChangedByPerson, again.ClosedByPerson));
        Assert.Equal("urn:other", _bench.Server.Only("DetectedIssue")["identifier"]![0]!["system"]!.GetValue<string>());
    }

    [Fact]
    public async Task AFindingMovedToAnotherId_IsFoundByIdentifier()
    {
        var answer = await _bench.SendAsync(Some.Issue);
        var moved = _bench.Server.Only("DetectedIssue").DeepClone();
        moved["id"] = "moved";
        _bench.Server.DeleteByPerson("DetectedIssue");
        _bench.Server.Deleted.Clear();
        _bench.Server.Put(moved.ToJsonString());
        var again = await _bench.SendAsync(Some.Amended);

        Assert.True(answer.Server!.Id != "moved");
        Assert.Equal("moved", again.Server!.Id);
        Assert.Equal("amended", _bench.Server.Only("DetectedIssue")["status"]!.GetValue<string>());
    }

    private void AssertOneOfEach()
    {
        Assert.Single(_bench.Server.All("DetectedIssue"));
        Assert.Single(_bench.Server.All("Provenance"));
        Assert.Single(_bench.Server.All("Device"));
    }
}
