using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>Ids in kebab case: lower-case letters, digits and single hyphens, at most 64 characters.</summary>
internal static class KebabId
{
    public const int MostLength = 64;

    /// <summary>The same but for the length, for editors.</summary>
    public const string Pattern = "^[a-z0-9]+(-[a-z0-9]+)*$";

    public static void Check(string id, Place at, Faults faults)
    {
        var fits = id.Length is > 0 and <= MostLength
            && id.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-')
            && id[0] != '-' && id[^1] != '-' && !id.Contains("--", StringComparison.Ordinal);
        if (!fits)
        {
            faults.Add(Codes.RuleSetIdMalformed, at, $"The id is {Words.Quote(id)}.");
        }
    }
}
