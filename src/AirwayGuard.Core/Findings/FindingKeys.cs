using System.Globalization;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// Keys of findings: the check with its subject, or with its line and the end of the spell before. Neither version nor value is
/// in a key, so that a second run updates instead of doubling.
/// </summary>
public static class FindingKeys
{
    /// <summary>Canonical base of everything this project names.</summary>
    public const string Base = "https://airwayguard.example.org/fhir/";

    /// <summary>The anchor of a line's first spell.</summary>
    public const string Start = "start";

    /// <summary>DetectedIssue: one per occurrence.</summary>
    /// <param name="number">1, or 2, 3, … where the key before is that of another patient, from whom the finding moved.</param>
    public static Guid Issue(string check, string subjectIdentity, int number = 1) =>
        NameBasedUuid.Create(
            NameBasedUuid.Urls,
            number == 1 ? $"{Base}finding/{check}|{subjectIdentity}" : string.Create(CultureInfo.InvariantCulture, $"{Base}finding/{check}|{subjectIdentity}|{number}"));

    /// <summary>Flag: one per spell.</summary>
    /// <param name="anchor">Instant of the clearing fact before the spell, or <see cref="Start"/>.</param>
    /// <param name="shown">1, or 2, 3, … for a spell shown again after a person's closing, or where the key before is another patient's.</param>
    public static Guid Flag(string check, string lineIdentity, string anchor, int shown = 1) =>
        NameBasedUuid.Create(
            NameBasedUuid.Urls,
            shown == 1
                ? $"{Base}flag/{check}|{lineIdentity}|{anchor}"
                : string.Create(CultureInfo.InvariantCulture, $"{Base}flag/{check}|{lineIdentity}|{anchor}|{shown}"));

    /// <summary>
    /// What a check could not tell: one per line and patient, and one per order. It names no resource on any server. The patient is in
    /// it because one outlet may serve two beds, and each of the two is told of it.
    /// </summary>
    public static Guid CannotTell(string check, string patientIdentity, string lineIdentity) =>
        NameBasedUuid.Create(NameBasedUuid.Urls, $"{Base}cannot-tell/{check}|{patientIdentity}|{lineIdentity}");

    /// <summary>An instant as an anchor: UTC, milliseconds.</summary>
    public static string Anchor(long utcTicks) =>
        new DateTime(utcTicks, DateTimeKind.Utc).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
}
