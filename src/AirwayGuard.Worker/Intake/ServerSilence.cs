using System.Globalization;

namespace AirwayGuard.Worker.Intake;

/// <summary>A server that does not answer.</summary>
/// <param name="Since">When the first question was left without an answer; by our clock.</param>
/// <param name="Questions">How many have none so far.</param>
public sealed record ServerSilence(DateTimeOffset Since, int Questions)
{
    /// <summary>E.g. <c>the FHIR server has not answered since 2026-03-02T08:00:05Z (14 questions without an answer)</c>.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"the FHIR server has not answered since {Since.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'} ({Questions} {(Questions == 1 ? "question" : "questions")} without an answer)");
}
