using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>What holds for one age: a limit, or that everything or nothing passes.</summary>
/// <param name="Passes">What passes, in words.</param>
/// <param name="Openness">Below 0 nothing passes beyond what does anyway, 0 what the limit lets pass, above 0 everything.</param>
/// <param name="Measure">Null where there is no limit.</param>
internal sealed record Cell(string Passes, int Openness, Limit? Limit, Measure? Measure, Ground? Ground)
{
    public static Cell Of(Limit limit, Measure measure, Side side) =>
        new(ClinicalWords.Passes(limit, measure), 0, limit, measure, new Ground([], limit.Source, side.Title(limit.Source), limit.Status));

    public static Cell Open(string words, Ground? ground = null) => new(words, 1, null, null, ground);

    public static Cell Closed(string words) => new(words, -1, null, null, null);

    /// <summary>The same passes, whatever it rests on and in whatever unit it is written.</summary>
    public bool HoldsAs(Cell other) => Passes == other.Passes && Openness == other.Openness;

    public bool IsSameAs(Cell other) => HoldsAs(other) && (Ground is null ? other.Ground is null : other.Ground is { } ground && Ground.IsSameAs(ground));

    /// <summary>Which way it goes from this one to the other.</summary>
    public Direction To(Cell other)
    {
        if (Openness != other.Openness)
        {
            return other.Openness > Openness ? Direction.Looser : Direction.Stricter;
        }

        if (Limit is null || other.Limit is null || !ReferenceEquals(Measure, other.Measure) || !LimitOrder.SameDirection(Limit.Comparison, other.Limit.Comparison))
        {
            return Direction.Neither;
        }

        return (LimitOrder.IsStricter(other.Limit, Limit), LimitOrder.IsStricter(Limit, other.Limit)) switch
        {
            (true, false) => Direction.Stricter,
            (false, true) => Direction.Looser,
            _ => Direction.Neither,
        };
    }
}
