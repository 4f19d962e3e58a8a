using System.Globalization;

namespace AirwayGuard.Worker.Judging;

/// <summary>Short names of checks for code.text: the id's words.</summary>
internal static class CheckTitles
{
    public static string Of(string check)
    {
        var words = check.Replace('-', ' ');
        return char.ToUpper(words[0], CultureInfo.InvariantCulture) + words[1..];
    }
}
