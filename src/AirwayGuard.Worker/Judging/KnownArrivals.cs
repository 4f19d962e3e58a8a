using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Judging;

/// <summary>Fetches, when a finding is born, what the ledger knows of the arrivals it rests on; each once a judgement, its words too.</summary>
internal sealed class KnownArrivals(ILedger ledger, IChartedText texts)
{
    private readonly Dictionary<Position, Arrival?> _arrivals = [];
    private readonly Dictionary<FactId, string> _words = [];

    public async ValueTask<MessageEvidence> EvidenceAsync(EvidenceItem item, CancellationToken stop)
    {
        var arrival = await ArrivalAsync(item.Fact.Arrival, stop);
        var name = ledger.NameOf(item.Row);
        var reference = arrival?.Version is { Length: > 0 } version ? $"{name}/_history/{version}" : name;
        if (!_words.TryGetValue(item.Fact, out var words))
        {
            _words[item.Fact] = words = arrival is null ? "" : texts.ValueOf(arrival.Body.Span, item.Fact.Ordinal) ?? "";
        }

        return new MessageEvidence(reference, words);
    }

    /// <summary>When the latest of these arrivals became known; <paramref name="otherwise"/> where there is none.</summary>
    public async ValueTask<DateTimeOffset> KnownAtAsync(IEnumerable<EvidenceItem> items, DateTimeOffset otherwise, CancellationToken stop)
    {
        DateTimeOffset? latest = null;
        foreach (var item in items)
        {
            var arrival = await ArrivalAsync(item.Fact.Arrival, stop);
            if (arrival is not null && (latest is null || arrival.KnownAt > latest))
            {
                latest = arrival.KnownAt;
            }
        }

        return latest ?? otherwise;
    }

    private async ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop)
    {
        if (!_arrivals.TryGetValue(position, out var arrival))
        {
            _arrivals[position] = arrival = await ledger.ArrivalAsync(position, stop);
        }

        return arrival;
    }
}
