namespace AirwayGuard.Fhir.Tests.Pages;

/// <summary>What the table of concepts cannot say of one: what it means on a ward, and a row of it.</summary>
/// <param name="Code">The concept's code.</param>
/// <param name="Meaning">One sentence or two, in a clinician's words.</param>
/// <param name="Value">The value member of the example row, JSON; empty for a row that needs none.</param>
/// <param name="ReadAs">How the reader keeps that value.</param>
internal sealed record ChartingNote(string Code, string Meaning, string Value, string ReadAs)
{
    /// <summary>What the example row is about.</summary>
    public string Subject { get; init; } = "Patient/p1";

    /// <summary>The end of the row's period; null for a row about an instant.</summary>
    public string? Until { get; init; }

    /// <summary>The device that the row names; null for none.</summary>
    public string? Device { get; init; }
}
