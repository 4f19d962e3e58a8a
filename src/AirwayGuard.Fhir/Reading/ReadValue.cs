using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What became of a charted value: a fact's value, a problem, both or neither.</summary>
internal readonly record struct ReadValue(bool HasFact, FactValue Value, FactMarks Marks, DiagnosticCode? Problem, string Why)
{
    public static readonly ReadValue Nothing;

    /// <summary>Answers beside the first that were charted as one with it; null for none.</summary>
    public IReadOnlyList<FactValue>? Further { get; init; }

    public static ReadValue Of(FactValue value, FactMarks marks = FactMarks.None) => new(true, value, marks, null, "");

    public static ReadValue Trouble(DiagnosticCode code, string why) => new(false, default, FactMarks.None, code, why);

    /// <summary>Says nothing of the value, which is patient data.</summary>
    public override string ToString() => $"ReadValue({Problem?.Id ?? "ok"})";
}
