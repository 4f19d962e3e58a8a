using System.Globalization;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Commands;

/// <summary>The time that <c>--as-of</c> and other options take: ISO 8601 with an offset, so that nobody's zone is assumed.</summary>
internal static class AsOfTime
{
    private static readonly string[] Forms =
        ["yyyy-MM-dd'T'HH:mm:sszzz", "yyyy-MM-dd'T'HH:mmzzz", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", "yyyy-MM-dd'T'HH:mm:ss'Z'", "yyyy-MM-dd'T'HH:mm'Z'", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'"];

    public static bool TryRead(string text, out DateTimeOffset time) =>
        DateTimeOffset.TryParseExact(text, Forms, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out time);

    public static Problem Unreadable(string verb, string option = "--as-of") => new(Codes.TimeUnreadable, $"{verb} {option}", "it is no time with an offset, or there is no such time");
}
