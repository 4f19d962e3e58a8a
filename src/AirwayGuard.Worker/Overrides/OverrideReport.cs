using System.Collections.Immutable;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Overrides;

/// <summary>What people did with the cards of a time, check by check.</summary>
/// <param name="Since">Cards given from then on; null for all.</param>
/// <param name="Until">Cards given before then; null for all.</param>
/// <param name="Checks">By id.</param>
/// <param name="All">The sum over <paramref name="Checks"/>.</param>
/// <param name="NotJudged">Cards that said what could not be judged; in no other sum.</param>
/// <param name="Hooks">Where the cards of <paramref name="Checks"/> were given, by name of the hook.</param>
/// <param name="Comments">Patient data; null where they were not asked for.</param>
public sealed record OverrideReport(
    DateTimeOffset? Since,
    DateTimeOffset? Until,
    ImmutableArray<CheckFigures> Checks,
    CardCounts All,
    CardCounts NotJudged,
    ImmutableArray<HookCount> Hooks,
    ImmutableArray<CommentedReport>? Comments);

/// <param name="Reasons">Of the overridden, most frequent first, then by <see cref="GivenReason.Full"/>.</param>
public sealed record CheckFigures(string Check, CardCounts Counts, ImmutableArray<ReasonCount> Reasons);

public sealed record ReasonCount(GivenReason Reason, int Count);

/// <param name="Given">Cards given in answer to this hook.</param>
public sealed record HookCount(string Hook, int Given);

/// <summary>What a person wrote of a card.</summary>
/// <param name="Check">Empty for a card that says what could not be judged.</param>
/// <param name="IsSuperseded">A later report on the card counts instead.</param>
public sealed record CommentedReport(Guid Card, string Check, DateTimeOffset At, CardOutcome Outcome, GivenReason Reason, string Comment, bool IsSuperseded)
{
    /// <summary>Says the card and outcome only.</summary>
    public override string ToString() => $"CommentedReport({Card}, {Outcome})";
}
