using System.Text.Json;
using System.Text.Unicode;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>What a reading owes whatever the bytes were.</summary>
internal static class ReadingFaults
{
    public static string? Of(ReadOnlySpan<byte> body, Reading reading)
    {
        if (!reading.Readable && reading.Problems.Count == 0)
        {
            return "It is unreadable and no code says so.";
        }

        if (!reading.Readable && (reading.Facts.Count > 0 || reading.Links.Count > 0))
        {
            return "It is unreadable and something of it was kept.";
        }

        if (reading.Facts.Exists(fact => fact.About.IsNone || fact.Row.IsNone))
        {
            return "A fact is about nothing.";
        }

        return reading.Readable && !IsJson(body) ? "It is no JSON and was passed over in silence." : Quoted(reading.Problems);
    }

    /// <summary>Whether a problem's words hold a person's.</summary>
    public static string? Quoted(IEnumerable<Problem> problems) =>
        problems.FirstOrDefault(problem => problem.Why.Contains(Edges.Mark, StringComparison.Ordinal)) is { } told ? $"{told.Code} quotes what was charted." : null;

    /// <summary>Whether the bytes are one JSON value in UTF-8; a mark before it is passed over.</summary>
    public static bool IsJson(ReadOnlySpan<byte> body)
    {
        return Utf8.IsValid(body) && IsWellFormed(body);
    }

    /// <summary>The same whatever the bytes of its texts are: of a Bundle, only what is said of an entry counts.</summary>
    public static bool IsWellFormed(ReadOnlySpan<byte> body)
    {
        body = body.StartsWith("\uFEFF"u8) ? body[3..] : body;
        var reader = new Utf8JsonReader(body, new JsonReaderOptions { MaxDepth = int.MaxValue });
        try
        {
            while (reader.Read())
            {
            }

            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }
}
