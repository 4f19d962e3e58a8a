using AirwayGuard.Core.Findings;

namespace AirwayGuard.Worker.Questions;

/// <summary>Names of cards: the same question asked again names the same cards, so that what a person says of one counts once.</summary>
internal static class CardIds
{
    /// <param name="say">What the card says: an order changed since is another card.</param>
    public static Guid Of(Asking asking, string check, Guid occurrence, string say) =>
        NameBasedUuid.Create(NameBasedUuid.Urls, $"{FindingKeys.Base}card/{asking.Service}|{asking.Request.Instance}|{asking.Request.PatientId}|{check}|{occurrence}|{say}");

    public static Guid OfView(string service, string instance, string patientId, Guid finding) =>
        NameBasedUuid.Create(NameBasedUuid.Urls, $"{FindingKeys.Base}card/{service}|{instance}|{patientId}||{finding}");

    public static Guid OfSuggestion(Guid card) => NameBasedUuid.Create(NameBasedUuid.Urls, $"{FindingKeys.Base}suggestion/{card}");
}
