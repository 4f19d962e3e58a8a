using System.Collections.Immutable;
using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Ports;

/// <summary>What a question reads of a stay.</summary>
/// <param name="Always">Concepts read over the whole stay.</param>
/// <param name="Recent">Concepts of which what lies in the window, reaches into it or has no time is read.</param>
public sealed record QuestionScope(ImmutableArray<Concept> Always, ImmutableArray<Concept> Recent, TimeRange Window);
