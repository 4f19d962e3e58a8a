using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>How the number of an amount bounds what is meant.</summary>
internal enum Bound : byte
{
    Plain,

    /// <summary>Up to the number.</summary>
    AtMost,

    /// <summary>Up to the number and without it.</summary>
    Below,

    /// <summary>From the number on, with no upper end.</summary>
    AtLeast,
}

/// <summary>A number or range with its unit, as written.</summary>
/// <param name="Low">The lower end of a range; null where one number is given.</param>
/// <param name="High">The only or the upper number; magnitudes.</param>
/// <param name="Kind">The unit's term; <see cref="Term.Number"/> without one.</param>
/// <param name="Unit">Of a pressure.</param>
/// <param name="First">Index of its first piece, words that bound it included.</param>
/// <param name="Last">Index of its last.</param>
/// <param name="NumberAt">Index of its first number.</param>
/// <param name="IsDoubtful">A number of it cannot be read.</param>
internal readonly record struct Amount(
    decimal? Low, decimal High, Bound Bound, Term Kind, Unit Unit, int First, int Last, int NumberAt, TextSpan Span, bool IsDoubtful)
{
    /// <summary>It was written without a unit, behind another of the same kind.</summary>
    public bool IsSameAsBefore { get; init; }
}
