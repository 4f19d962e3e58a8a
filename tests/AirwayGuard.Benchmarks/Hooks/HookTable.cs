using System.Globalization;
using System.Text;
using AirwayGuard.Benchmarks.Harness;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>Medians over the runs; a ratio is the median of the runs' own ratios.</summary>
/// <param name="calls">Every call, the baseline among them.</param>
internal sealed class HookTable(IReadOnlyList<HookCall> calls)
{
    public const string Baseline = "parsing and writing the same body (baseline)";
    public const string Kept = "the same, on disk before it is answered";
    public const string Short = "order that breaches, short stay";
    public const string Long = "order that breaches, long stay";
    public const string ShortPass = "order that passes, short stay";
    public const string LongPass = "order that passes, long stay";

    private readonly List<(string Call, int Callers, CallResult Result)> _results = [];

    public IReadOnlyList<HookCall> Calls => calls;

    public void Add(HookCall call, int callers, CallResult result) => _results.Add((call.Name, callers, result));

    public string ToMarkdown()
    {
        var text = new StringBuilder("| call | callers | p50 ms | p95 ms | p99 ms | requests/s | p95, times the baseline's (lowest to highest run) | p95, times that on disk | p50, times the short stay's |\n|---|---|---|---|---|---|---|---|---|\n");
        foreach (var callers in _results.Select(static one => one.Callers).Distinct())
        {
            foreach (var call in calls)
            {
                var own = Of(call.Name, callers);
                text.Append(CultureInfo.InvariantCulture, $"| {call.Name} | {callers} | {Middle(own, static one => one.P50):F2} | {Middle(own, static one => one.P95):F2} | {Middle(own, static one => one.P99):F2} ");
                text.Append(CultureInfo.InvariantCulture, $"| {Middle(own, static one => one.ASecond):N0} | {Ratio(own, Of(Baseline, callers), static one => one.P95)} | {Ratio(own, Of(Kept, callers), static one => one.P95)} | {StayRatio(call.Name, callers)} |\n");
            }
        }

        return text.ToString();
    }

    private List<CallResult> Of(string call, int callers) => [.. _results.Where(one => one.Call == call && one.Callers == callers).Select(static one => one.Result)];

    private string StayRatio(string call, int callers) => call switch
    {
        Long => Ratio(Of(Long, callers), Of(Short, callers), static one => one.P50),
        LongPass => Ratio(Of(LongPass, callers), Of(ShortPass, callers), static one => one.P50),
        _ => "",
    };

    private static double Middle(List<CallResult> results, Func<CallResult, double> part) => Standing.Median(results.Select(part));

    private static string Ratio(List<CallResult> own, List<CallResult> other, Func<CallResult, double> part)
    {
        var ratios = own.Zip(other, (one, beside) => part(one) / part(beside)).ToList();
        return string.Create(CultureInfo.InvariantCulture, $"{Standing.Median(ratios):F2} ({ratios.Min():F2} to {ratios.Max():F2})");
    }
}
