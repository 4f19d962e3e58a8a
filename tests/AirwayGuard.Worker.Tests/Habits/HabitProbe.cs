using System.Text;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.TestKit.Habits;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>A fixed row of questions to a server, and all that it answers; a habit that changes none of the answers is no habit.</summary>
internal sealed class HabitProbe : IDisposable
{
    private const string Identified = """{"resourceType":"Flag","identifier":[{"system":"urn:x","value":"k"}],"status":"active","code":{"text":"x"},"subject":{"reference":"Patient/p"}}""";

    private const string Transaction = """{"resourceType":"Bundle","type":"transaction","entry":[{"resource":{"resourceType":"Basic","code":{"text":"x"}},"request":{"method":"POST","url":"Basic"}},{"resource":{"resourceType":"Basic","id":"b","code":{"text":"x"}},"request":{"method":"PUT","url":"Basic/b","ifMatch":"W/\"9\""}}]}""";

    private const string Subscription = """{"resourceType":"Subscription","status":"requested","reason":"x","criteria":"Patient?","channel":{"type":"rest-hook","endpoint":"http://127.0.0.1:1/n"}}""";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("airwayguard-habit-");
    private readonly SandboxRepository _repository;
    private readonly HttpClient _client;

    private HabitProbe(HabitSwitch habit)
    {
        var clock = new SetClock(Ward.Morning.AddMilliseconds(250));
        _repository = new SandboxRepository(Unflushed.Sandbox(_folder.FullName), clock);
        HttpMessageHandler server = new SandboxHandler(new SandboxServer(_repository, clock));
        foreach (var one in habit.Make(clock).Reverse())
        {
            one.InnerHandler = server;
            server = one;
        }

        _client = new HttpClient(server);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static async Task<string> AnswersAsync(HabitSwitch habit)
    {
        using var probe = new HabitProbe(habit);
        var said = new StringBuilder();
        foreach (var (question, body, headers) in Questions())
        {
            said.Append(await probe.AskAsync(question, body, headers)).Append('\n');
        }

        return said.ToString();
    }

    public void Dispose()
    {
        _client.Dispose();
        _repository.Dispose();
        _folder.Delete(recursive: true);
    }

    private static IEnumerable<(string Question, string? Body, (string, string)[] Headers)> Questions()
    {
        yield return ("PUT Patient/p", Ward.Patient, []);
        for (var i = 0; i < 25; i++)
        {
            yield return ("POST Observation", Ward.Vacuum($"o{i}", 100, i), [("Prefer", "return=minimal")]);
        }

        yield return ("POST Flag", Identified, [("If-None-Exist", "identifier=urn:x|k")]);
        yield return ("POST Flag", Identified, [("If-None-Exist", "identifier=urn:x|k")]);
        yield return ("POST Provenance", """{"resourceType":"Provenance","target":[{"reference":"Patient/p"}],"recorded":"2026-03-02T08:00:00Z","agent":[{"who":{"display":"x"}}]}""", []);
        yield return ("PUT Patient/p", Ward.Patient, [("If-Match", "W/\"1\"")]);
        yield return ("PUT Patient/p", Ward.Patient, [("If-Match", "W/\"77\"")]);
        yield return ("PUT Patient/p", Ward.Patient, [("If-Match", "\"1\"")]);
        foreach (var read in (string[])["Patient/p", "Patient/p/_history", "Patient/p/_history/1", "Patient/_history", "metadata", "Observation?_count=5&_sort=_lastUpdated",
            "Observation", "Observation?_lastUpdated=ge2026-03-02T09:00:00.900Z", "Observation?_lastUpdated=ge2026-03-02T08:00:00.100Z", "Observation?code=none", "Observation?_sort=-_lastUpdated&_count=2",
            "Observation?patient=p", "Provenance?target=Patient/none", "Patient?_summary=count", "Patient?url=x", "Patient/none"])
        {
            yield return ("GET " + read, null, []);
        }

        yield return ("HEAD Patient/p", null, []);
        yield return ("POST ", Transaction, []);
        yield return ("GET Basic", null, []);
        yield return ("POST Subscription", Subscription, []);
        yield return ("POST Subscription", Subscription.Replace("requested", "active", StringComparison.Ordinal), []);
        yield return ("GET Subscription", null, []);
        yield return ("PUT Patient/q", "{", []);
        yield return ("DELETE Patient/p", null, []);
        yield return ("GET Patient/p", null, []);
    }

    private async Task<string> AskAsync(string question, string? body, (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(new HttpMethod(question.Split(' ')[0]), $"{PipelineBench.Server}/{question.Split(' ')[1]}".TrimEnd('/'));
        request.Content = body is null ? null : new StringContent(body, Encoding.UTF8, "application/fhir+json");
        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using var answer = await _client.SendAsync(request, Stop);
        var told = answer.Headers.NonValidated.Concat(answer.Content.Headers.NonValidated).Where(header => header.Key is "ETag" or "Location" or "Last-Modified" or "Date").Select(header => header.Value.ToString());
        return $"{question}: {(int)answer.StatusCode} {string.Join(' ', told)} {await answer.Content.ReadAsStringAsync(Stop)}";
    }
}
