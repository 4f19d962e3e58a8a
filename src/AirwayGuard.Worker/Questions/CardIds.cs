using AirwayGuard.Core.Findings;

namespace AirwayGuard.Worker.Questions;

/// <summary>Names of cards: the same question asked again names the same cards, so that what a person says of one counts once.</summary>
internal static class CardIds
{
    public static Guid Of(Asking asking, string check, Guid occurrence) =>
        NameBasedUuid.Create(NameBasedUuid.Urls, $"{FindingKeys.Base}card/{asking.Service}|{asking.Request.Instance}|{asking.Request.PatientId}|{check}|{occurrence}");

    public static Guid OfView(string service, string instance, string patientId, Guid finding) =>
        NameBasedUuid.Create(NameBasedUuid.Urls, $"{FindingKeys.Base}card/{service}|{instance}|{patientId}||{finding}");

    public static Guid OfSuggestion(Guid card) => NameBasedUuid.Create(NameBasedUuid.Urls, $"{FindingKeys.Base}suggestion/{card}");
}
