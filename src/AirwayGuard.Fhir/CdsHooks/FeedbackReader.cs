using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Reads what an EHR tells of cards (CDS Hooks 2.0, "Feedback"). One entry that cannot be read costs none of the others.</summary>
public static class FeedbackReader
{
    /// <summary>Entries that are read of one body.</summary>
    public const int MostEntries = 1000;

    /// <summary>Characters that a comment may have; a longer one is refused and never cut.</summary>
    public const int LongestComment = 4000;

    /// <summary>Suggestions that one entry may name.</summary>
    public const int MostSuggestions = 20;

    /// <summary>What could be read and what could not; throws on nothing that is sent.</summary>
    public static FeedbackReading Read(ReadOnlyMemory<byte> utf8)
    {
        var slices = new List<ReadOnlyMemory<byte>>();
        var (isList, isCut) = (false, false);
        var fault = JsonBody.Read(utf8, (ref JsonCursor cursor) => (isList, isCut) = Slice(ref cursor, slices));
        if (fault is not null || !isList)
        {
            return new FeedbackReading([], [fault ?? Unusable("feedback", "It is required: a list.")]);
        }

        var entries = ImmutableArray.CreateBuilder<CardFeedback>(slices.Count);
        var faults = ImmutableArray.CreateBuilder<HookFault>();
        for (var i = 0; i < slices.Count; i++)
        {
            var (entry, wrong) = ReadEntry(slices[i], i);
            if (entry is not null)
            {
                entries.Add(entry);
            }
            else
            {
                faults.Add(wrong!);
            }
        }

        if (isCut)
        {
            faults.Add(Unusable(
                Place(MostEntries), string.Create(CultureInfo.InvariantCulture, $"More than {MostEntries} entries were sent; those from here on were not read.")));
        }

        return new FeedbackReading(entries.ToImmutable(), faults.ToImmutable());
    }

    private static (bool IsList, bool IsCut) Slice(ref JsonCursor cursor, List<ReadOnlyMemory<byte>> slices)
    {
        var (isList, isCut) = (false, false);
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var isFeedback = cursor.Is("feedback"u8);
            cursor.Read();
            isList |= isFeedback && cursor.IsArray;
            if (!isFeedback || !cursor.IsArray)
            {
                cursor.Skip();
                continue;
            }

            while (cursor.NextItem())
            {
                var start = cursor.Start;
                cursor.SkipUnseen();
                isCut = slices.Count == MostEntries;
                if (!isCut)
                {
                    slices.Add(cursor.Since(start));
                }
            }
        }

        return (isList, isCut);
    }

    private static (CardFeedback? Entry, HookFault? Fault) ReadEntry(ReadOnlyMemory<byte> slice, int index)
    {
        var place = Place(index);
        var sent = new SentFeedback();
        try
        {
            var cursor = new JsonCursor(slice);
            cursor.Read();
            if (!cursor.IsObject)
            {
                return (null, Unusable(place, "It is no object."));
            }

            sent.Read(ref cursor);
        }
        catch (JsonException malformed)
        {
            return (null, Unusable(place, JsonBody.Why(malformed)));
        }

        return sent.Wrong() is var (where, why) ? (null, Unusable($"{place}.{where}", why)) : (sent.Entry(index), null);
    }

    private static string Place(int index) => string.Create(CultureInfo.InvariantCulture, $"feedback[{index}]");

    private static HookFault Unusable(string where, string why) => new(Codes.FeedbackUnusable, where, why, 400);
}
