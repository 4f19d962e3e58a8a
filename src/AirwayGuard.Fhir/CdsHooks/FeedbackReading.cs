using System.Collections.Immutable;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>What a person did with a card, and its place in the body, from 0.</summary>
public sealed record FeedbackEntry(int Index, CardFeedback Feedback)
{
    /// <summary>Says its card only.</summary>
    public override string ToString() => $"FeedbackEntry({Feedback.Card})";
}

/// <summary>What could be read of a body of feedback, and what could not.</summary>
/// <param name="Faults">Of single entries, each with its place, or one of the whole body.</param>
public sealed record FeedbackReading(ImmutableArray<FeedbackEntry> Entries, ImmutableArray<HookFault> Faults);
