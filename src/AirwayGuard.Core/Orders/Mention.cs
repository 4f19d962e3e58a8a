using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>Something that an order says at one place, before places are held against each other.</summary>
/// <param name="Piece">Index of the piece it stands at.</param>
/// <param name="Low">Lower end of a range.</param>
/// <param name="High">Number, or hours of an interval.</param>
/// <param name="Says">Yes or no.</param>
/// <param name="Word">A coded answer.</param>
/// <param name="IsConditional">Said under a condition, or not as a routine.</param>
/// <param name="IsOfGear">Said in one breath with a machine, whose limit it may be.</param>
/// <param name="IsAlternative">Conditional, and the only size of its clause: it stands beside what another clause asks for.</param>
/// <param name="IsOpen">More is allowed than the other mentions say, and nobody can tell how much.</param>
internal readonly record struct Mention(
    OrderField Field, int Piece, TextSpan Span, decimal? Low = null, decimal? High = null, Bound Bound = Bound.Plain, Unit Unit = Unit.None,
    bool Says = true, string? Word = null, bool IsConditional = false, bool IsOfGear = false, bool IsAlternative = false, bool IsOpen = false);
