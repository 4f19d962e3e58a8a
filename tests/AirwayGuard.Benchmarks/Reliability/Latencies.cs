namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>Times of the same thing done again and again.</summary>
internal sealed class Latencies
{
    private readonly List<TimeSpan> _all = [];

    public double MedianMs => At(0.50);

    public double NinetyFifthMs => At(0.95);

    public double NinetyNinthMs => At(0.99);

    public int Count => _all.Count;

    public void Add(TimeSpan took) => _all.Add(took);

    // The smallest that so many are at or below.
    private double At(double share) => _all.Order().ElementAt((int)Math.Ceiling(share * _all.Count) - 1).TotalMilliseconds;
}
