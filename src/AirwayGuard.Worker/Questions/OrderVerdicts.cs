using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>A breach by a drafted order.</summary>
/// <param name="About">Drafts that it is about.</param>
/// <param name="Facts">Facts it rests on, those of the drafts among them.</param>
internal sealed record OrderBreach(Rule Rule, Occurrence Occurrence, ImmutableArray<Entity> About, ImmutableArray<Fact> Facts)
{
    /// <summary>Says its check only.</summary>
    public override string ToString() => $"OrderBreach({Rule.Id})";
}

/// <summary>What was judged of drafted orders.</summary>
internal sealed record OrderVerdicts(ImmutableArray<OrderBreach> Breaches, ImmutableArray<DerivedCannotTell> CannotTell);
