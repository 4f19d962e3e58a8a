using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>Whose policy the cards speak for.</summary>
/// <param name="Name">The policy's name at this hospital; null: the rule set's.</param>
/// <param name="Url">Where it can be read; null for none.</param>
public sealed record PolicyLabel(string? Name, string? Url);

/// <summary>What every card ends with: how old the charting is, whose policy it is, and that this is no alarm.</summary>
/// <param name="upTo">Up to when the charting is known; null where it came with the question.</param>
internal sealed class CardFoot(RuleSet rules, PolicyLabel policy, DateTimeOffset now, DateTimeOffset? upTo)
{
    /// <summary>Older than this, what is known is told with its age.</summary>
    private static readonly TimeSpan Aged = TimeSpan.FromMinutes(5);

    private const string Caution = "Local policy and licensed practice decide. This is no alarm and no treatment advice.";

    public CardSource SourceOf(string? check) => new(
        policy.Name is { Length: > 0 } name ? name : $"Suction policy: {rules.Name} {rules.Version}", policy.Url,
        check is null ? null : new CardCoding(WrittenSystems.Check, check, CheckTitles.Of(check)));

    public void AddTo(CardLines detail)
    {
        if (upTo is { } at && now - at > Aged)
        {
            detail.Add("Age of the charting", string.Create(CultureInfo.InvariantCulture, $"known up to {At(at)}, {(int)(now - at).TotalMinutes} minutes ago"));
        }

        detail.Add("Policy", $"{rules.Name} {rules.Version}. {Caution}");
    }

    public static string At(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
}
