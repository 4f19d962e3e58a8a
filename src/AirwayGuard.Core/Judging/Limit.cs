using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Judging;

/// <summary>A constant with its comparison, its one source and that source's status.</summary>
/// <param name="Low">The limit; the lower of two for <see cref="Judging.Comparison.Outside"/>.</param>
/// <param name="High">The upper of two; equal to <paramref name="Low"/> otherwise.</param>
/// <param name="Code">The code compared with for <c>is</c> and <c>isNot</c> (<c>yes</c> and <c>no</c> for marks); else empty.</param>
public sealed record Limit(Comparison Comparison, decimal Low, decimal High, Unit Unit, string Code, string Source, SourceStatus Status)
{
    /// <summary>What is compared is the same; the sources may differ.</summary>
    public bool ComparesAs(Limit other) =>
        Comparison == other.Comparison && Low == other.Low && High == other.High && Unit == other.Unit && string.Equals(Code, other.Code, StringComparison.Ordinal);
}
