using System.Buffers;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.Core.Tests.Ports;

public sealed class TimelineLeaseTests
{
    // Of a size that no other test rents.
    private const int Facts = 3000, Links = 2000;

    private static readonly Entity Patient = new(EntityKind.Patient, 1);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void ALeaseGivenBack_CannotBeRead(bool isRented)
    {
        var lease = new TimelineLease(Patient, [], 0, new int[Concepts.Count + 1], [], 0, new Position(1), isRented);
        Assert.Equal(0, lease.View.Facts.Length);

        lease.Dispose();

        Assert.Throws<ObjectDisposedException>(() => lease.View.Facts.Length);
    }

    [Fact]
    public void ALeaseGivenBackTwice_GivesItsMemoryBackOnce()
    {
        var (facts, links) = (ArrayPool<Fact>.Shared.Rent(Facts), ArrayPool<Link>.Shared.Rent(Links));
        var lease = new TimelineLease(Patient, facts, 0, new int[Concepts.Count + 1], links, 0, new Position(1), isRented: true);

        lease.Dispose();
        lease.Dispose();

        Assert.Same(facts, ArrayPool<Fact>.Shared.Rent(Facts));
        Assert.NotSame(facts, ArrayPool<Fact>.Shared.Rent(Facts));
        Assert.Same(links, ArrayPool<Link>.Shared.Rent(Links));
        Assert.NotSame(links, ArrayPool<Link>.Shared.Rent(Links));
    }

    [Fact]
    public void WhatIsKept_OutlivesTheLease_AndIsLentToManyAtOnce()
    {
        var (facts, links) = (ArrayPool<Fact>.Shared.Rent(Facts), ArrayPool<Link>.Shared.Rent(Links));
        facts[0] = new Fact { About = Patient };
        var rented = new TimelineLease(Patient, facts, 1, new int[Concepts.Count + 1], links, 0, new Position(7), isRented: true);
        var kept = rented.Kept();
        rented.Dispose();
        facts[0] = default;

        var (one, other) = (kept.Lent(), kept.Lent());
        one.Dispose();

        Assert.Equal(Patient, other.View.Facts[0].About);
        Assert.Equal((Patient, 1, new Position(7)), (other.View.Patient, other.View.Facts.Length, other.View.AsKnownAt));
        Assert.Throws<ObjectDisposedException>(() => one.View.Facts.Length);
    }

    [Fact]
    public void RentedMemory_IsLentToOneAlone()
    {
        using var rented = new TimelineLease(Patient, ArrayPool<Fact>.Shared.Rent(Facts), 0, new int[Concepts.Count + 1], ArrayPool<Link>.Shared.Rent(Links), 0, new Position(1), isRented: true);

        Assert.Throws<InvalidOperationException>(rented.Lent);
    }
}
