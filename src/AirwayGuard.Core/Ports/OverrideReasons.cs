namespace AirwayGuard.Core.Ports;

/// <summary>Why a card was overridden, as a code that may stand where patient data may not.</summary>
public static class OverrideReasons
{
    /// <summary>The system of the reasons that our cards offer.</summary>
    public const string System = "https://airwayguard.example.org/fhir/CodeSystem/override-reason";

    /// <summary>What every reason of another system is called.</summary>
    public const string Other = "other";

    private const int LongestCode = 64;

    /// <summary>
    /// The code of a reason of ours; <see cref="Other"/> for one of another system, or one that has not the form of a code (lower-case
    /// letters, digits and hyphens, 64 at most), since a sender may put a person's own words there; empty where none was given.
    /// </summary>
    public static string CodeOf(CardFeedback feedback)
    {
        if (feedback.ReasonCode.Length == 0)
        {
            return "";
        }

        return feedback.ReasonSystem == System && HasFormOfCode(feedback.ReasonCode) ? feedback.ReasonCode : Other;
    }

    private static bool HasFormOfCode(string code) =>
        code.Length <= LongestCode && code.All(static letter => char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter) || letter == '-');
}
