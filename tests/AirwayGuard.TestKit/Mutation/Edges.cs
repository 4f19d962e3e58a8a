namespace AirwayGuard.TestKit.Mutation;

/// <summary>Values at the edges of what readers expect, each a whole JSON value.</summary>
internal static class Edges
{
    /// <summary>Stands in names, texts and identifiers of the inputs: a problem's words must never hold it.</summary>
    public const string Mark = "zq7Mark";

    public static readonly string[] Numbers =
    [
        "0", "-0", "-0.0", "1e400", "-1e400", "1e-400", "1e99999999999", "1e-99999999999", "0e99999999999", "12345678901234567890123456789",
        "79228162514264337593543950335", "79228162514264337593543950336", "0.0000000000000000000000000001", "0.00000000000000000000000000001",
        "9223372036854775807", "9223372036854775808", "-9223372036854775808", "2147483648", "1.7976931348623157e308", "5e-324", "1E+2", "120.0000",
        "65535", "65536", "0.1e1", "-1", "1e28", "1e29", "-79228162514264337593543950335", "133.3223684210526315789473684",
    ];

    public static readonly string[] Dates =
    [
        "0001-01-01T00:00:00Z", "0001-01-01T00:00:00+14:00", "0001-01-01", "0000-01-01", "9999-12-31T23:59:59.9999999Z", "9999-12-31T23:59:60Z",
        "9999-12-31T23:59:59-14:00", "9999-12-31", "9999", "0001", "2016-12-31T23:59:60Z", "2026-03-01T24:00:00Z", "2026-03-01T23:60:00Z",
        "2026-02-29", "2024-02-29", "2024-02-29T12:00:00+14:00", "2026-02-29T12:00:00Z", "2026-03-01T09:55:00+14:00", "2026-03-01T09:55:00-14:00",
        "2026-03-01T09:55:00+14:01", "2026-03-01T09:55:00", "2026-03-01T09:55+10:00", "2026-03", "1900-01-01", "2026-03-01T09:55:00.12345678901234567890Z",
        "2026-03-01T09:55:00.Z", "2026-13-01", "-2026-03-01", "20260301", "2026-03-01T09:55:00z", "2026-03-01 09:55:00Z", "1970-01-01T00:00:00Z",
    ];

    private static readonly string Long = new('a', 70_000);

    private static readonly string[] Texts =
    [
        "\"\"", "\" \"", "\"\\ud800\"", "\"\\udc00\"", "\"a\\ud800b\"", "\"\\u0000\"", "\"a\\u0000b\"", "\"\\u202Etxet\"", "\"\u202Etxet\"", "\"\\n\\t\\r\"",
        "\"\u00e9\u4e2d\ud83e\udec1\"", "\"\\ud83e\\udec1\"", "\"\\/\\\\\\\"\"", "\"\uFEFF\"", "\"Patient/\"", "\"/p1\"", "\"Patient/p1/_history/\"", "\"#\"", "\"urn:uuid:\"", "\"urn:uuid:0\"",
        "\"Patient?identifier=a|b\"", "\"http://[::1\"", "\"//x/Patient/1\"", "\"http://x/fhir/Patient/p1/_history/1/2\"", "\"entered-in-error\"", "\"unknown\"", "\"not-performed\"",
        "\"mm[Hg]\"", "\"kPa\"", "\"HTEST\"", "\"Bundle\"", "\"Observation\"", "\"Patient\"", "\"1e400\"", "\"12 Fr\"", "\"every 4 hours\"", "\"100-150 mmHg\"", "\"<=150\"", "\"W/\\\"1\\\"\"",
        "\"\\u004fbservation\"", "\"" + new string('9', 400) + "\"", "\"" + new string('a', 300) + "\"",
    ];

    private static readonly string[] Others =
    [
        "null", "true", "false", "[]", "{}", "[null]", "[[]]", "[{}]", "{\"a\":null}", "{\"extension\":[null]}", "[true,1,\"a\"]", "{\"coding\":[null]}", "{\"reference\":5}", "{\"value\":[]}",
        "{\"start\":\"9999\",\"end\":\"0001\"}", "{\"resourceType\":\"Patient\"}", "{\"\":\"\"}", "{\"a\":1,\"a\":2}",
    ];

    private static readonly int[] Depths = [1, 2, 30, 61, 62, 63, 64, 65, 200, 1_001, 5_000];

    public static string Text(Dice dice) => dice.Once(400) ? "\"" + Long + "\"" : dice.OneOf(Texts);

    /// <summary>Any JSON value.</summary>
    public static string Value(Dice dice) => dice.Next(8) switch
    {
        0 or 1 => dice.OneOf(Numbers),
        2 => "\"" + dice.OneOf(Dates) + "\"",
        3 or 4 => Text(dice),
        5 when dice.Once(4) => Deep(dice, "1"),
        _ => dice.OneOf(Others),
    };

    /// <summary>The value inside lists or objects.</summary>
    public static string Deep(Dice dice, string value)
    {
        var depth = dice.OneOf(Depths);
        return dice.Once(2)
            ? new string('[', depth) + value + new string(']', depth)
            : string.Concat(Enumerable.Repeat("{\"a\":", depth)) + value + new string('}', depth);
    }
}
