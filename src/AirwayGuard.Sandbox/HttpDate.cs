using System.Globalization;

namespace AirwayGuard.Sandbox;

/// <summary>Dates of headers (RFC 9110 §5.6.7), in whole seconds. One that cannot be read counts as not given (§13.1.3, §13.1.4).</summary>
internal static class HttpDate
{
    public static bool TryRead(string? text, out DateTimeOffset date) =>
        DateTimeOffset.TryParseExact(text, "R", CultureInfo.InvariantCulture, DateTimeStyles.None, out date);
}
