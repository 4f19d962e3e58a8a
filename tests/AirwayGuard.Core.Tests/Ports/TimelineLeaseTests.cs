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
}
