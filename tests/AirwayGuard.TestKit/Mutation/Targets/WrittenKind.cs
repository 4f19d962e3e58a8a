using System.Text;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>What stands on a server under the key of a finding, through the writing of that finding: found, read, changed, taken back.</summary>
internal sealed class WrittenKind : MutationKind, IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);
    private static readonly MessageBasis Basis = new("strict-ranges", "1.0.0", new string('a', 64), new string('b', 64), "1.0.0", "3");
    private static readonly FhirGate Gate = new(new Uri("http://sandbox.test/fhir"), []);

    private static readonly IssueMessage Issue = new(
        OtherInputs.Key, "vacuum-above-ceiling", IssueStatus.Final, Severity.High, "Vacuum above ceiling", "Vacuum 220 mm[Hg] is above 150 mm[Hg].", "Set it lower.", "Patient/p1", ["Observation/o1"],
        [new MessageEvidence("Observation/o1/_history/2", "220 mmHg")], Noon, Noon, false, "adult", ["An invented guideline"], "", "live", Basis);

    private static readonly FlagMessage Flag = new(
        OtherInputs.Key, "vacuum-above-ceiling", FlagStatus.Active, Severity.High, "Vacuum 220 mm[Hg] is above 150 mm[Hg].", "Patient/p1", "Encounter/e1", Noon, null, [OtherInputs.Key], null, "",
        [new MessageEvidence("Observation/o1/_history/2", "220 mmHg")], "live", Basis);

    private static readonly Outgoing[] Messages =
    [
        .. new[] { Issue, Issue with { Status = IssueStatus.Amended, Reason = "Judged again." }, Issue with { Status = IssueStatus.EnteredInError, Reason = "Taken back." } }
            .Select(message => new Outgoing(message.Key, MessageJson.Issue, default, MessageJson.Write(message))),
        .. new[] { Flag, Flag with { Status = FlagStatus.Inactive, PeriodEnd = Noon.AddHours(1), Reason = "Cleared." }, Flag with { Status = FlagStatus.EnteredInError, PeriodEnd = Noon.AddHours(1), Reason = "Taken back." } }
            .Select(message => new Outgoing(message.Key, MessageJson.Flag, default, MessageJson.Write(message))),
    ];

    private readonly JsonInput[] _inputs;
    private readonly StubServer _server = new();
    private readonly HttpClient _http;
    private readonly SetClock _clock = new(Noon);

    public WrittenKind(JsonInput[] inputs)
    {
        _inputs = [.. inputs.Select(one => JsonInput.Of(Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(one.Bytes)
            .Replace("SYSTEM", Encoding.UTF8.GetString(one.Bytes).Contains("\"DetectedIssue\",", StringComparison.Ordinal) ? WrittenSystems.Finding : WrittenSystems.Flag, StringComparison.Ordinal))))];
        _http = new HttpClient(_server) { Timeout = Timeout.InfiniteTimeSpan };
    }

    public override string Name => "written";

    public override long BaseWork => 4 * 1024 * 1024;

    public override long WorkPerByte => 2_000;

    public void Dispose() => _http.Dispose();

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(_inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        byte[] found = [.. "{\"resourceType\":\"Bundle\",\"type\":\"searchset\",\"entry\":[{\"resource\":"u8, .. input, .. "},{\"resource\":"u8, .. input, .. "}]}"u8];
        (_server.Dice, _server.Requests) = (dice, 0);
        _server.BodyOf = request => request.Method != HttpMethod.Get && dice.Once(2) ? [] : request.RequestUri!.Query.Length > 0 ? found : input;
        using var sink = new FhirSink(new FhirHttp(_http, Gate, _clock), new FhirSinkOptions { WriteProvenance = dice.Once(2), SearchBeforeCreate = dice.Once(4) }, _clock);
        var message = dice.OneOf(Messages);
        var last = dice.Next(3) switch { 0 => null, 1 => new ServerVersion("f1", "2"), _ => new ServerVersion("i1", "1") };
        var answer = Ended(async () => await sink.SendAsync(message, last, DateTimeOffset.MaxValue, CancellationToken.None));
        return answer.State == SendState.Confirmed == (answer.Code is null) ? null : "A sending is neither confirmed nor told under a code.";
    }
}
