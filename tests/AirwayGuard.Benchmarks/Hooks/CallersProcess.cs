using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using AirwayGuard.Benchmarks.Reliability;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>The callers, in a process of their own: each line it reads is a job, each line it writes what came of it. Connections are kept.</summary>
internal static class CallersProcess
{
    public const string Name = "hook-callers";

    public static async Task<int> ServeAsync(TextReader input, TextWriter output)
    {
        await output.WriteLineAsync("ready");
        await output.FlushAsync();
        using var http = new HttpClient(new SocketsHttpHandler { UseProxy = false, UseCookies = false, PooledConnectionIdleTimeout = TimeSpan.FromMinutes(10) });
        while (await input.ReadLineAsync() is { } line)
        {
            var job = JsonSerializer.Deserialize<CallJob>(line)!;
            await CallAsync(http, job, job.WarmUp);
            await output.WriteLineAsync(JsonSerializer.Serialize(await CallAsync(http, job, job.Requests)));
            await output.FlushAsync();
        }

        return 0;
    }

    private static async Task<CallResult> CallAsync(HttpClient http, CallJob job, int requests)
    {
        var (left, fault, began) = (requests, (string?)null, MachineClock.Instance.GetTimestamp());
        var took = await Task.WhenAll(Enumerable.Range(0, job.Callers).Select(_ => Task.Run(CallerAsync)));
        var all = MachineClock.Instance.GetElapsedTime(began);
        var latencies = new Latencies();
        foreach (var one in took.SelectMany(static times => times))
        {
            latencies.Add(one);
        }

        return new CallResult(latencies.MedianMs, latencies.NinetyFifthMs, latencies.NinetyNinthMs, latencies.Count / all.TotalSeconds, fault);

        async Task<List<TimeSpan>> CallerAsync()
        {
            var times = new List<TimeSpan>();
            while (Interlocked.Decrement(ref left) >= 0)
            {
                var body = Encoding.UTF8.GetBytes(job.Call.Body.Replace(HookCall.Instance, Guid.NewGuid().ToString(), StringComparison.Ordinal));
                var sent = MachineClock.Instance.GetTimestamp();
                var (status, answer) = await AskAsync(http, job.Call.Url, body);
                times.Add(MachineClock.Instance.GetElapsedTime(sent));
                fault ??= FaultOf(job.Call, status, answer);
            }

            return times;
        }
    }

    private static async Task<(int Status, byte[] Answer)> AskAsync(HttpClient http, Uri url, byte[] body)
    {
        using var content = new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
        using var answer = await http.PostAsync(url, content);
        return ((int)answer.StatusCode, await answer.Content.ReadAsByteArrayAsync());
    }

    // Otherwise something else would be measured than is said.
    private static string? FaultOf(HookCall call, int status, byte[] answer) =>
        status == 200 && (call.Cards is not { } wanted || answer.AsSpan().IndexOf("\"suggestions\""u8) >= 0 == wanted && answer.AsSpan().IndexOf("\"summary\""u8) >= 0 == wanted)
            ? null
            : $"{call.Name}: {status} {Encoding.UTF8.GetString(answer)}";
}
