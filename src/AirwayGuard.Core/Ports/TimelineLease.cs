using System.Buffers;
using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Ports;

/// <summary>A patient's facts and links on loan. <see cref="View"/> is valid until it is disposed.</summary>
public sealed class TimelineLease : IDisposable
{
    private readonly int[] _start;
    private readonly int _linkCount;
    private readonly Position _at;
    private readonly bool _isRented;
    private Fact[]? _facts;
    private Link[]? _links;

    /// <param name="facts">Sorted by <see cref="FactOrder"/>; the first <paramref name="factCount"/> count.</param>
    /// <param name="start">For each concept the index of its first fact.</param>
    /// <param name="isRented">Both arrays come from the shared <see cref="ArrayPool{T}"/> and go back to it.</param>
    public TimelineLease(Entity patient, Fact[] facts, int factCount, int[] start, Link[] links, int linkCount, Position at, bool isRented)
    {
        (Patient, FactCount, _facts, _links, _start, _linkCount, _at, _isRented) = (patient, factCount, facts, links, start, linkCount, at, isRented);
    }

    /// <exception cref="ObjectDisposedException">The lease was given back; its memory may hold another patient by now.</exception>
    public Timeline View
    {
        get
        {
            ObjectDisposedException.ThrowIf(_facts is null || _links is null, this);
            return new(Patient, _facts.AsSpan(0, FactCount), _start, _links.AsSpan(0, _linkCount), _at);
        }
    }

    public Entity Patient { get; }

    public int FactCount { get; }

    /// <summary>The same in memory of its own, which outlives this and is never given back.</summary>
    public TimelineLease Kept()
    {
        var view = View;
        return new(Patient, view.Facts.ToArray(), FactCount, _start, view.Links.ToArray(), _linkCount, _at, isRented: false);
    }

    /// <summary>The same memory once more, for another reader beside this; only where it is not rented.</summary>
    /// <exception cref="InvalidOperationException">The memory is rented.</exception>
    public TimelineLease Lent() =>
        _isRented ? throw new InvalidOperationException("Rented memory goes back once, so that it is lent to one reader only.") : new(Patient, _facts!, FactCount, _start, _links!, _linkCount, _at, isRented: false);

    public void Dispose()
    {
        if (_isRented && _facts is not null && _links is not null)
        {
            ArrayPool<Fact>.Shared.Return(_facts);
            ArrayPool<Link>.Shared.Return(_links);
        }

        (_facts, _links) = (null, null);
    }
}
