using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>Facts on their way from rows to a timeline.</summary>
internal sealed class FactBuffer
{
    private Fact[] _facts = new Fact[64];
    private int _count;

    /// <summary>Takes every row that was known at the position.</summary>
    public void Take(Statement rows, Position asKnownAt)
    {
        while (rows.Step())
        {
            if (_count == _facts.Length)
            {
                Array.Resize(ref _facts, _count * 2);
            }

            if (FactRow.TryRead(rows, asKnownAt.Value, out _facts[_count]))
            {
                _count++;
            }
        }
    }

    public TimelineLease ToLease(Entity patient, List<Link> links, Position asKnownAt)
    {
        var start = FactOrder.SortAndIndex(_facts.AsSpan(0, _count));
        return new TimelineLease(patient, _facts, _count, start, [.. links], links.Count, asKnownAt);
    }
}
