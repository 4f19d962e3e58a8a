namespace AirwayGuard.Benchmarks.Harness;

/// <summary>How one way of doing the work came out, medians over the rounds.</summary>
/// <param name="Ratio">Units per CPU second as a multiple of the baseline's.</param>
/// <param name="RatioLow">The lowest round's ratio.</param>
/// <param name="RatioHigh">The highest round's ratio.</param>
internal sealed record Standing(string Name, double UnitsPerCpuSecond, double WallMicrosecondsPerUnit, double BytesPerUnit, double Ratio, double RatioLow, double RatioHigh)
{
    public double MicrosecondsPerUnit => 1_000_000 / UnitsPerCpuSecond;

    /// <param name="baseline">Costs of the same rounds.</param>
    public static Standing Of(string name, IReadOnlyList<Cost> costs, IReadOnlyList<Cost> baseline)
    {
        var ratios = costs.Zip(baseline, (own, other) => own.UnitsPerCpuSecond / other.UnitsPerCpuSecond).ToList();
        return new Standing(
            name, Median(costs.Select(cost => cost.UnitsPerCpuSecond)), Median(costs.Select(cost => cost.WallMicrosecondsPerUnit)),
            Median(costs.Select(cost => cost.BytesPerUnit)), Median(ratios), ratios.Min(), ratios.Max());
    }

    /// <summary>The same with so many units taken as so many greater ones.</summary>
    public Standing Per(int units, int greater = 1) => this with
    {
        UnitsPerCpuSecond = UnitsPerCpuSecond * greater / units,
        WallMicrosecondsPerUnit = WallMicrosecondsPerUnit * units / greater,
        BytesPerUnit = BytesPerUnit * units / greater,
    };

    /// <summary>The middle value; of an even number the mean of the two in the middle.</summary>
    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        var middle = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
    }
}
