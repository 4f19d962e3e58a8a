using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.WriteBack;
using Xunit;

namespace AirwayGuard.Fhir.Tests.WriteBack;

public sealed class FlagLifeCycleTests : IDisposable
{
    private readonly SinkBench _bench = new();

    public void Dispose() => _bench.Dispose();

    // The key is the same where a row was corrected to another patient and the ledger is lost.
    [Fact]
    public async Task AFlag_IsNotLinkedToAnotherPatientsIssue()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Forget();

        await _bench.SendAsync(Some.Flag with { Subject = "Patient/p2" });

        Assert.Null(Link(0)["reference"]);
    }

    [Fact]
    public async Task AFlag_LinksToItsIssueByASearchOnIdentifier()
    {
        var issue = await _bench.SendAsync(Some.Issue);
        _bench.Restart();
        await _bench.SendAsync(Some.Flag);

        Assert.Equal($"DetectedIssue/{issue.Server!.Id}", Link(0)["reference"]!.GetValue<string>());
    }

    [Fact]
    public async Task AFlagWhoseIssueIsNotThereYet_NamesItByIdentifier()
    {
        var answer = await _bench.SendAsync(Some.Flag);

        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.Null(Link(0)["reference"]);
        Assert.Equal(Some.Issue.Key.ToString("D"), Link(0)["identifier"]!["value"]!.GetValue<string>());
    }

    [Fact]
    public async Task AFlagShownAgain_NamesTheOneAPersonClosed()
    {
        await _bench.SendAsync(Some.Flag with { Replaces = Some.Issue.Key });

        Assert.Equal("Flag", Link(1)["type"]!.GetValue<string>());
        Assert.Equal(WrittenSystems.Flag, Link(1)["identifier"]!["system"]!.GetValue<string>());
    }

    // Whoever sees the list of Flags only sees the text of the code.
    [Fact]
    public async Task AFlagOfWhatBecameKnownLate_SaysSoInItsTexts_AndWhenThatHappened()
    {
        await _bench.SendAsync(Some.Flag with { LateBreachAt = Some.Noon.AddHours(-5) });
        var late = _bench.Server.Only("Flag").DeepClone();
        await _bench.SendAsync(Some.Flag with { Severity = AirwayGuard.Core.Judging.Severity.Moderate });
        var inTime = _bench.Server.Only("Flag");

        Assert.Equal("Vacuum 220 mm[Hg] is above 150 mm[Hg]. Became known late.", late["code"]!["text"]!.GetValue<string>());
        Assert.Contains("<p>Happened 2026-03-01 07:00:00 +10:00. Became known late.</p>", late["text"]!["div"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.DoesNotContain("late", inTime.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AFlagWhoseConditionEnded_BecomesInactiveWithAnEnd()
    {
        await _bench.SendAsync(Some.Flag);
        var answer = await _bench.SendAsync(Some.Cleared);

        Assert.Equal("2", answer.Server!.Version);
        Assert.Equal("inactive", Status());
        Assert.Equal("2026-03-01T13:00:00+10:00", _bench.Server.Only("Flag")["period"]!["end"]!.GetValue<string>());
    }

    [Fact]
    public async Task AWithdrawnFlagThatNobodyElseTouched_IsEnteredInError()
    {
        await _bench.SendAsync(Some.Flag);
        await _bench.SendAsync(Some.WithdrawnFlag);

        Assert.Equal("entered-in-error", Status());
    }

    [Fact]
    public async Task AFlagAPersonClosed_IsNeverOpenedAgainNorTouched()
    {
        await _bench.SendAsync(Some.Flag);
        _bench.Server.ChangeByPerson("Flag", flag => flag["status"] = "inactive");
        foreach (var message in new[] { Some.Flag with { Text = "Still above." }, Some.Cleared, Some.WithdrawnFlag })
        {
            var answer = await _bench.SendAsync(message);
            Assert.Equal(SendState.Confirmed, answer.State);
            Assert.True(answer.ChangedByPerson);
            Assert.True(answer.ClosedByPerson);
            Assert.Equal("1", answer.Server!.Version);
        }

        Assert.Equal("inactive", Status());
        Assert.Equal("2", _bench.Server.Only("Flag")["meta"]!["versionId"]!.GetValue<string>());
    }

    [Fact]
    public async Task AClearedFlagThatAPersonReworded_BecomesInactiveAndKeepsTheWords()
    {
        await _bench.SendAsync(Some.Flag);
        _bench.Server.ChangeByPerson("Flag", flag => flag["code"]!["text"] = "Regulator 4 is being replaced");
        var answer = await _bench.SendAsync(Some.Cleared);
        var again = await _bench.SendAsync(Some.Cleared);

        Assert.True(answer.ChangedByPerson);
        Assert.False(answer.ClosedByPerson);
        Assert.False(again.ClosedByPerson);
        Assert.Equal("inactive", Status());
        Assert.Equal("Regulator 4 is being replaced", _bench.Server.Only("Flag")["code"]!["text"]!.GetValue<string>());
        Assert.Equal("3", _bench.Server.Only("Flag")["meta"]!["versionId"]!.GetValue<string>());
    }

    [Fact]
    public async Task AWithdrawnFlagThatAPersonReworded_BecomesInactiveAndNotEnteredInError()
    {
        await _bench.SendAsync(Some.Flag);
        _bench.Server.ChangeByPerson("Flag", flag => flag["code"]!["text"] = "Regulator 4 is being replaced");
        await _bench.SendAsync(Some.WithdrawnFlag);

        Assert.Equal("inactive", Status());
    }

    [Fact]
    public async Task AStatusOurReleaseDoesNotKnow_CountsAsClosedByAPerson()
    {
        await _bench.SendAsync(Some.Flag);
        _bench.Server.ChangeByPerson("Flag", flag => flag["status"] = "resolved");
        var answer = await _bench.SendAsync(Some.Cleared);

        Assert.True(answer.ClosedByPerson);
        Assert.Equal("resolved", Status());
    }

    [Theory]
    [InlineData("Device/r1")]
    [InlineData("Practitioner/x")]
    public async Task AFlagOnAnythingButPatientOrLocation_IsParkedAndNothingIsSent(string subject)
    {
        var answer = await _bench.SendAsync(Some.Flag with { Subject = subject });

        Assert.Equal((SendState.Parked, "AG5204"), (answer.State, answer.Code));
        Assert.Empty(_bench.Server.Asked);
    }

    [Fact]
    public async Task AMessageOfAnotherRelease_IsParked()
    {
        var answer = await _bench.SendAsync(Some.Of(Some.Flag) with { Content = "{\"key\":3}" });

        Assert.Equal((SendState.Parked, "AG5203"), (answer.State, answer.Code));
    }

    [Fact]
    public async Task AFlagBesideDuplicatedIssues_NamesTheIssueByIdentifierOnly()
    {
        foreach (var id in (string[])["a", "b"])
        {
            _bench.Server.Put($$"""{"resourceType":"DetectedIssue","id":"{{id}}","status":"final","identifier":[{"system":"{{WrittenSystems.Finding}}","value":"{{Some.Issue.Key:D}}"}]}""");
        }

        await _bench.SendAsync(Some.Flag);

        Assert.Null(Link(0)["reference"]);
    }

    private string Status() => _bench.Server.Only("Flag")["status"]!.GetValue<string>();

    private JsonNode Link(int index) =>
        _bench.Server.Only("Flag")["extension"]!.AsArray().Where(one => one!["url"]!.GetValue<string>() == WrittenSystems.FlagDetail).ElementAt(index)!["valueReference"]!;
}
