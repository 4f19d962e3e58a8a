using System.Globalization;
using System.Text.Json;
using System.Text.Unicode;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>A body that must be one JSON object.</summary>
internal static class JsonBody
{
    /// <param name="cursor">On the beginning of the object, to be left on its end.</param>
    public delegate void Walk(ref JsonCursor cursor);

    /// <summary>Walks the object and sees that nothing stands behind it. Null where the body is one.</summary>
    public static HookFault? Read(ReadOnlyMemory<byte> utf8, Walk walk)
    {
        var body = JsonCheck.WithoutMark(utf8);
        if (!Utf8.IsValid(body.Span))
        {
            return Fault("body", "It is not in UTF-8.");
        }

        try
        {
            var cursor = new JsonCursor(body);
            cursor.Read();
            if (!cursor.IsObject)
            {
                return Fault("body", "It is no JSON object.");
            }

            walk(ref cursor);
            cursor.Read();
            return null;
        }
        catch (JsonException malformed)
        {
            return Fault(Place(malformed), Why(malformed));
        }
    }

    /// <summary>One sentence. The exception's own words are not told: they quote what was sent.</summary>
    public static string Why(JsonException malformed) => malformed is UnusableJsonException unusable ? unusable.Why
        : string.Create(CultureInfo.InvariantCulture, $"It is not well-formed from there on, or nested more than {JsonCursor.Deepest} levels.");

    private static string Place(JsonException malformed) =>
        string.Create(CultureInfo.InvariantCulture, $"line {malformed.LineNumber.GetValueOrDefault() + 1}, byte {malformed.BytePositionInLine.GetValueOrDefault() + 1}");

    private static HookFault Fault(string where, string why) => new(Codes.HookUnreadable, where, why, 400);
}
