using System.Collections.Concurrent;
using System.Diagnostics.Tracing;
using System.Globalization;

namespace AirwayGuard.Benchmarks.Harness;

/// <summary>Which types the bytes go to: the runtime names the type of about one allocation in every 100 KB.</summary>
internal sealed class AllocationSampler : EventListener
{
    private const EventKeywords Collector = (EventKeywords)0x1;
    private readonly ConcurrentDictionary<string, long> _samples = new(StringComparer.Ordinal);

    /// <summary>The types seen most often, with their share of the samples.</summary>
    public string Most(int types)
    {
        var all = Math.Max(1, _samples.Values.Sum());
        return string.Join("; ", _samples.OrderByDescending(sample => sample.Value).Take(types)
            .Select(sample => string.Create(CultureInfo.InvariantCulture, $"{Short(sample.Key)} {100 * sample.Value / all} %")));
    }

    protected override void OnEventSourceCreated(EventSource eventSource)
    {
        if (eventSource.Name == "Microsoft-Windows-DotNETRuntime")
        {
            EnableEvents(eventSource, EventLevel.Verbose, Collector);
        }
    }

    protected override void OnEventWritten(EventWrittenEventArgs eventData)
    {
        if (eventData.EventName?.StartsWith("GCAllocationTick", StringComparison.Ordinal) == true && eventData.PayloadNames is { } names
            && eventData.Payload?[names.IndexOf("TypeName")] is string type)
        {
            _samples.AddOrUpdate(type, 1, static (_, seen) => seen + 1);
        }
    }

    private static string Short(string type) => type.Length <= 90 ? type : type[..90] + "…";
}
