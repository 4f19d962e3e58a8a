using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Simulation;

namespace AirwayGuard.TestKit.Kills;

/// <summary>Charts at the server over HTTP, several patients at a time, and does what persons do to our resources there.</summary>
internal sealed class Poster(ServedSandbox server, ServicePlace service, TimeProvider clock, int seed) : IDisposable
{
    private const int AtATime = 10, LongestPauseMs = 200;
    private static readonly TimeSpan Waits = TimeSpan.FromHours(2), LongestLook = TimeSpan.FromSeconds(10);

    private readonly Random _random = new(seed);
    private readonly HttpClient _http = new() { DefaultRequestHeaders = { { "User-Agent", ServerTraffic.Poster } } };
    private readonly List<string> _patients = [];
    private readonly List<Queue<ChartingAct>> _charts = [];
    private readonly Dictionary<ChartingAct, DateTimeOffset> _looked = [];
    private int _plans;

    /// <summary>Ids of everybody who was admitted.</summary>
    public IReadOnlyList<string> Patients => _patients;

    /// <summary>Versions and deletions charted so far.</summary>
    public int Rows { get; private set; }

    /// <summary>Goes on until it is stopped; what was begun is finished.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            if (_charts.Count < AtATime)
            {
                Admit();
            }

            var chart = _charts[_random.Next(_charts.Count)];
            if (await TryDoAsync(chart.Peek()))
            {
                chart.Dequeue();
                _charts.RemoveAll(one => one.Count == 0);
            }

            // Some come in bursts, as from a column that is filed at once.
            if (_random.Next(3) > 0)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(_random.Next(LongestPauseMs)), clock, CancellationToken.None);
            }
        }
    }

    public void Dispose() => _http.Dispose();

    // So long ago that no row is of a time to come, and that what waits for a row which never comes falls due soon.
    private void Admit()
    {
        var (planSeed, names) = (seed + ++_plans, string.Create(CultureInfo.InvariantCulture, $"w{_plans}p"));
        var sketch = ChartingPlan.Draw(planSeed);
        var length = sketch.Acts[^1].After;
        var now = clock.GetUtcNow();
        var start = now - length - TimeSpan.FromMinutes(1);
        foreach (var pass in sketch.Passes)
        {
            if (now - Waits - pass + TimeSpan.FromSeconds(5 + _random.Next(20)) is var soon && soon + length <= now)
            {
                start = soon;
            }
        }

        var plan = ChartingPlan.Draw(planSeed, start, names);
        _patients.AddRange(plan.Patients);
        _charts.AddRange(plan.Patients.Select(patient => new Queue<ChartingAct>(plan.Acts.Where(act => act.Patient == patient))));
    }

    private async Task<bool> TryDoAsync(ChartingAct act)
    {
        if (act.IsOnOurs)
        {
            var since = _looked.TryGetValue(act, out var first) ? first : _looked[act] = clock.GetUtcNow();
            var done = server.Contents.Hands.InForce(act.Kind, act.Patient) is { } key && await MayBeDoneAsync(act.Kind, key) && server.Contents.Hands.TryDo(act.Kind, key);
            return done || clock.GetUtcNow() - since > LongestLook;
        }

        using var request = new HttpRequestMessage(act.Kind == ActKind.DeleteRow ? HttpMethod.Delete : HttpMethod.Put, new Uri($"{server.Address}/{act.Type}/{act.Id}"));
        if (act.Kind == ActKind.Chart)
        {
            request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(act.Json)) { Headers = { ContentType = new MediaTypeHeaderValue("application/fhir+json") } };
        }

        using var answer = await _http.SendAsync(request);
        answer.EnsureSuccessStatusCode();
        Rows++;
        return true;
    }

    // Of what was created without a word reaching the service, and deleted before it looked, nobody can know that it was there.
    private async Task<bool> MayBeDoneAsync(ActKind kind, Guid key)
    {
        if (kind is not (ActKind.DeleteFlag or ActKind.DeleteIssue))
        {
            return true;
        }

        await using var ledger = SqliteLedgerReader.Open(service.LedgerFolder);
        return (await ledger.AuditOfAsync(key.ToString(), CancellationToken.None)).Any(entry => entry.What == "sent" && entry.Detail.Contains("\"serverId\"", StringComparison.Ordinal));
    }
}
