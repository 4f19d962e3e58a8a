using System.Collections.Immutable;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>What became of a card (CDS Hooks 2.0, "Feedback").</summary>
public enum CardOutcome : byte
{
    Accepted,
    Overridden,
}

/// <summary>What a person did with a card.</summary>
/// <param name="Index">Its place in the body, from 0.</param>
/// <param name="At">When, UTC.</param>
/// <param name="AcceptedSuggestions">Each once; empty where none are named.</param>
/// <param name="Comment">In the person's words; at most 4,000 characters.</param>
public sealed record CardFeedback(
    int Index, Guid Card, CardOutcome Outcome, DateTimeOffset At, ImmutableArray<Guid> AcceptedSuggestions, OverrideReason? Reason, string? Comment)
{
    /// <summary>Says its card only.</summary>
    public override string ToString() => $"CardFeedback({Card})";
}

/// <summary>Why a card was overridden, as coded; at least one of the three is there.</summary>
public sealed record OverrideReason(string? System, string? Code, string? Display)
{
    /// <summary>Says nothing of it.</summary>
    public override string ToString() => nameof(OverrideReason);
}

/// <summary>What could be read of a body of feedback, and what could not.</summary>
/// <param name="Faults">Of single entries, each with its place, or one of the whole body.</param>
public sealed record FeedbackReading(ImmutableArray<CardFeedback> Entries, ImmutableArray<HookFault> Faults);
