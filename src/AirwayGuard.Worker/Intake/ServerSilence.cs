using System.Globalization;

namespace AirwayGuard.Worker.Intake;

/// <summary>A server that does not answer what it is asked: it is away, or it refuses all of it.</summary>
/// <param name="Since">When the first question was left without an answer; by our clock.</param>
/// <param name="Questions">How many have none so far.</param>
/// <param name="Cause">By status or by kind, e.g. <c>HTTP 503</c>.</param>
/// <param name="IsRefusal">It is there, and says no.</param>
public sealed record ServerSilence(DateTimeOffset Since, int Questions, string Cause, bool IsRefusal)
{
    /// <summary>
    /// E.g. <c>the FHIR server has not answered since 2026-03-02T08:00:05Z (14 questions without an answer: HTTP 503)</c>, or <c>the FHIR
    /// server has refused what it is asked since 2026-03-02T08:00:05Z (14 questions without an answer: HTTP 403)</c>.
    /// </summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"the FHIR server {(IsRefusal ? "has refused what it is asked" : "has not answered")} since {Since.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'} ({Count(Questions)} without an answer: {Cause})");

    /// <summary>E.g. <c>1 question</c>.</summary>
    public static string Count(int questions) => string.Create(CultureInfo.InvariantCulture, $"{questions} {(questions == 1 ? "question" : "questions")}");

    /// <summary>Said by the server of what it was asked, rather than of how it is; a sign-in page it leads to is no other thing.</summary>
    /// <param name="status">Null where no answer came.</param>
    public static bool IsRefusedWith(int? status) => status is (>= 300 and < 500 and not (408 or 425 or 429)) or 501;
}
