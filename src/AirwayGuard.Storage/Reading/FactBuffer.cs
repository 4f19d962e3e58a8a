using System.Buffers;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>Facts on their way from rows to a timeline, in rented memory: a stay is too large to be made anew for each load.</summary>
internal sealed class FactBuffer
{
    private Fact[] _facts = ArrayPool<Fact>.Shared.Rent(512);
    private int _count;

    /// <summary>Takes every row that was known at the position.</summary>
    public void Take(Statement rows, Position asKnownAt)
    {
        while (rows.Step())
        {
            if (_count == _facts.Length)
            {
                Grow();
            }

            if (FactRow.TryRead(rows, asKnownAt.Value, out _facts[_count]))
            {
                _count++;
            }
        }
    }

    /// <summary>Hands the memory on to the lease, which gives it back.</summary>
    public TimelineLease ToLease(Entity patient, List<Link> links, Position asKnownAt)
    {
        var start = FactOrder.SortAndIndex(_facts.AsSpan(0, _count));
        var rented = ArrayPool<Link>.Shared.Rent(links.Count);
        links.CopyTo(rented);
        return new TimelineLease(patient, _facts, _count, start, rented, links.Count, asKnownAt, isRented: true);
    }

    private void Grow()
    {
        var larger = ArrayPool<Fact>.Shared.Rent(_count * 2);
        _facts.AsSpan().CopyTo(larger);
        ArrayPool<Fact>.Shared.Return(_facts);
        _facts = larger;
    }
}
