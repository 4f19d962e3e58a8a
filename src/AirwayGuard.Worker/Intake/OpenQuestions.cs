using System.Globalization;

namespace AirwayGuard.Worker.Intake;

/// <summary>Questions that a server leaves without an answer for minutes while it answers others; what it was refused is not among them.</summary>
/// <param name="Since">When the first of them was left so; by our clock.</param>
/// <param name="Cause">Of the first, by status or by kind, e.g. <c>HTTP 500</c>.</param>
public sealed record OpenQuestions(int Count, DateTimeOffset Since, string Cause)
{
    /// <summary>E.g. <c>1 question is without an answer since 2026-03-02T08:00:05Z (HTTP 500), and what it asks for is not here since</c>.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{ServerSilence.Count(Count)} {(Count == 1 ? "is" : "are")} without an answer since {Since.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'} ({Cause}), and what {(Count == 1 ? "it asks" : "they ask")} for is not here since");
}
