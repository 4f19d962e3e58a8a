using System.Globalization;

namespace AirwayGuard.Worker.Judging;

/// <summary>Short names of checks for code.text: the id's words.</summary>
public static class CheckTitles
{
    /// <summary>E.g. <c>Vacuum above ceiling</c>.</summary>
    public static string Of(string check)
    {
        var words = check.Replace('-', ' ');
        return char.ToUpper(words[0], CultureInfo.InvariantCulture) + words[1..];
    }
}
