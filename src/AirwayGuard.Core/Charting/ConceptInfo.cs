using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Charting;

/// <summary>What a row of one concept may carry.</summary>
/// <param name="Code">The code.</param>
/// <param name="Dimension">The kind of its number; <see cref="Dimension.Code"/> for answers, <see cref="Dimension.YesNo"/> for marks.</param>
/// <param name="IsInput">True for the codes of the public code system; false for what only resources themselves carry.</param>
/// <param name="AlsoYesNo">A number or code that may instead be charted as a boolean (pre-oxygenation, saline).</param>
/// <param name="FreeText">Other text counts as an answer (suction-indication, allowance-reason).</param>
/// <param name="Answers">The answers it takes; empty for numbers and marks.</param>
public sealed record ConceptInfo(string Code, Dimension Dimension, bool IsInput, bool AlsoYesNo, bool FreeText, IReadOnlyList<string> Answers);
