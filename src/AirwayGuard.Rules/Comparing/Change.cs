using System.Collections.Immutable;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Comparing;

/// <summary>One thing that became another within a check, told in one sentence.</summary>
/// <param name="Aspect">What changed: <c>limit</c>, <c>circumstance</c>, <c>allowance</c>, <c>severity</c> and so on.</param>
/// <param name="Bands">The ages it holds for; empty where age plays no part.</param>
/// <param name="Sentence">The whole of it, without a full stop.</param>
/// <param name="From">What it was, in words.</param>
/// <param name="To">What it becomes, in words.</param>
public sealed record Change(string Aspect, ImmutableArray<AgeBand> Bands, string Sentence, Direction Direction, string From, string To)
{
    /// <summary>True of limits, those of circumstances and of allowances too: they are counted apart from what else changes.</summary>
    public bool IsLimit => Aspect is Aspects.Limit or Aspects.Circumstance or Aspects.Allowance;

    /// <summary>The same number as before: it rests on something else.</summary>
    public bool IsSameNumber { get; init; }

    /// <summary>What the limits rest on in both sets; empty for what needs no source.</summary>
    public ImmutableArray<Ground> Was { get; init; } = [];

    /// <inheritdoc cref="Was"/>
    public ImmutableArray<Ground> Now { get; init; } = [];
}

/// <summary>What a limit rests on.</summary>
/// <param name="Bands">The ages for which it does.</param>
/// <param name="Source">The source's id in its document.</param>
/// <param name="Title">The publication; empty where the document lists none.</param>
public sealed record Ground(ImmutableArray<AgeBand> Bands, string Source, string Title, SourceStatus Status)
{
    /// <summary>Rests on the same: the age apart.</summary>
    public bool IsSameAs(Ground other) => other is not null && (Source, Title, Status) == (other.Source, other.Title, other.Status);
}
