using System.Text;

namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>Makes values of HTTP headers: entity tags, dates, preferences, tokens, addresses; and breaks some.</summary>
internal static class HeaderMutator
{
    private static readonly string[] Values =
    [
        "*", "W/\"1\"", "\"1\"", "1", "W/\"", "\"", "\"\"", "W/", "W/\"1\",W/\"2\"", ",", ",,", "W/\"a\"b\"", "W/\"1\", *", "Sun, 01 Mar 2026 10:00:00 GMT", "Mon, 01 Mar 2026 10:00:00 GMT", "Fri, 31 Dec 9999 23:59:59 GMT",
        "Mon, 01 Jan 0001 00:00:00 GMT", "2026-03-01", "0", "-1", "120", "99999999999999999999", "return=minimal", "handling=strict", "handling", "=", ";=;,", "return=\"representation\"; handling=strict", "Bearer ", "Bearer",
        "Bearer token", "bearer token", "Basic a", "http://sandbox.test/fhir/Flag/1/_history/2", "Flag/1/_history/2", "/fhir/Flag/1", "http://elsewhere.test/fhir/Flag/1", "http://[", "%2e%2e/x", "Flag/../x", "\u00e9", "\u202E", " ", "",
        "http://sandbox.test/fhir?_count=", "http://sandbox.test/fhir/Observation?_count=99999999999&page=2", "http://sandbox.test:99999/fhir/Flag/1",
    ];

    public static string Value(Dice dice)
    {
        var value = dice.OneOf(Values);
        return dice.Next(6) switch
        {
            0 => Encoding.Latin1.GetString(ByteMutator.Mutate(Encoding.UTF8.GetBytes(value), dice)),
            1 => value + dice.OneOf(Values),
            2 when dice.Once(100) => value + new string('a', 20_000),
            _ => value,
        };
    }
}
