using System.Globalization;
using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>The members of one entry of feedback as they were sent.</summary>
internal sealed class SentFeedback
{
    private const int LongestOfCoding = 2000;

    private readonly List<SentText> _accepted = [];
    private SentText _card, _outcome, _at, _comment, _system, _code, _display;
    private (string Where, string Why)? _misshapen;

    /// <param name="cursor">On the beginning of the entry; left on its end.</param>
    public void Read(ref JsonCursor cursor)
    {
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            if (cursor.Is("card"u8))
            {
                _card = Take(ref cursor);
            }
            else if (cursor.Is("outcome"u8))
            {
                _outcome = Take(ref cursor);
            }
            else if (cursor.Is("outcomeTimestamp"u8))
            {
                _at = Take(ref cursor);
            }
            else if (cursor.Is("acceptedSuggestions"u8))
            {
                cursor.Read();
                ReadAccepted(ref cursor);
            }
            else if (cursor.Is("overrideReason"u8))
            {
                Enter(ref cursor, ReadReason, "overrideReason");
            }
            else
            {
                cursor.Read();
                cursor.Skip();
            }
        }
    }

    /// <summary>The first thing by which the entry cannot be used; null where it can.</summary>
    public (string Where, string Why)? Wrong() =>
        !TryUuid(_card.Text, out _) ? ("card", "It is required: the uuid of the card.")
        : _outcome.Text is not ("accepted" or "overridden") ? ("outcome", "It is required: accepted or overridden.")
        : !TryTime(_at.Text, out _) ? ("outcomeTimestamp", "It is required: date and time with an offset.")
        : _misshapen ?? WrongSuggestion() ?? WrongReason();

    /// <summary>The entry, where nothing is wrong with it.</summary>
    public FeedbackEntry Entry(int index)
    {
        TryUuid(_card.Text, out var card);
        TryTime(_at.Text, out var at);
        var outcome = _outcome.Text == "accepted" ? CardOutcome.Accepted : CardOutcome.Overridden;
        var accepted = _accepted.Select(one => TryUuid(one.Text, out var id) ? id : Guid.Empty).Distinct();
        return new FeedbackEntry(index, new CardFeedback(card, outcome, at, Said(_system), Said(_code), Said(_display), Said(_comment), [.. accepted]));
    }

    private (string Where, string Why)? WrongSuggestion()
    {
        if (_accepted.Count > FeedbackReader.MostSuggestions)
        {
            return ("acceptedSuggestions", string.Create(CultureInfo.InvariantCulture, $"It names more than {FeedbackReader.MostSuggestions}."));
        }

        var wrong = _accepted.FindIndex(one => !TryUuid(one.Text, out _));
        return wrong < 0 ? null : (string.Create(CultureInfo.InvariantCulture, $"acceptedSuggestions[{wrong}].id"), "It is required: the uuid of the suggestion.");
    }

    private (string Where, string Why)? WrongReason() =>
        WrongText(_system, "reason.system", LongestOfCoding) ?? WrongText(_code, "reason.code", LongestOfCoding) ?? WrongText(_display, "reason.display", LongestOfCoding)
        ?? WrongText(_comment, "userComment", FeedbackReader.LongestComment);

    private static (string Where, string Why)? WrongText(SentText sent, string member, int longest) =>
        sent is { IsThere: true, Text: null } ? ($"overrideReason.{member}", "Where it is sent it is a text.")
        : sent.Text?.Length > longest
            ? ($"overrideReason.{member}", string.Create(CultureInfo.InvariantCulture, $"It has more than {longest} characters; nothing of the entry was kept, since what is cut may say the contrary."))
        : null;

    private void ReadAccepted(ref JsonCursor cursor)
    {
        if (!cursor.IsArray)
        {
            Misshapen("acceptedSuggestions", "Where it is sent it is a list.", ref cursor);
            return;
        }

        while (cursor.NextItem())
        {
            _accepted.Add(ReadSuggestion(ref cursor));
        }
    }

    private static SentText ReadSuggestion(ref JsonCursor cursor)
    {
        var id = default(SentText);
        if (!cursor.IsObject)
        {
            cursor.Skip();
            return id;
        }

        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var isId = cursor.Is("id"u8);
            cursor.Read();
            var text = cursor.TakeText();
            id = isId ? text : id;
        }

        return id;
    }

    private void ReadReason(ref JsonCursor cursor)
    {
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            if (cursor.Is("userComment"u8))
            {
                _comment = Take(ref cursor);
            }
            else if (cursor.Is("reason"u8))
            {
                Enter(ref cursor, ReadCoding, "overrideReason.reason");
            }
            else
            {
                cursor.Read();
                cursor.Skip();
            }
        }
    }

    private void ReadCoding(ref JsonCursor cursor)
    {
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            if (cursor.Is("system"u8))
            {
                _system = Take(ref cursor);
            }
            else if (cursor.Is("code"u8))
            {
                _code = Take(ref cursor);
            }
            else if (cursor.Is("display"u8))
            {
                _display = Take(ref cursor);
            }
            else
            {
                cursor.Read();
                cursor.Skip();
            }
        }
    }

    private void Enter(ref JsonCursor cursor, JsonBody.Walk walk, string where)
    {
        cursor.Read();
        if (cursor.IsObject)
        {
            walk(ref cursor);
        }
        else
        {
            Misshapen(where, "Where it is sent it is an object.", ref cursor);
        }
    }

    private void Misshapen(string where, string why, ref JsonCursor cursor)
    {
        _misshapen ??= cursor.IsNull ? null : (where, why);
        cursor.Skip();
    }

    private static SentText Take(ref JsonCursor cursor)
    {
        cursor.Read();
        return cursor.TakeText();
    }

    private static bool TryUuid(string? text, out Guid uuid)
    {
        const string Urn = "urn:uuid:";
        var bare = text?.StartsWith(Urn, StringComparison.OrdinalIgnoreCase) == true ? text[Urn.Length..] : text;
        return Guid.TryParseExact(bare, "D", out uuid);
    }

    private static bool TryTime(string? text, out DateTimeOffset at)
    {
        var isInstant = FhirTime.Read(Encoding.UTF8.GetBytes(text ?? ""), out var ticks, out _) == TimeForm.Exact;
        at = new DateTimeOffset(ticks, TimeSpan.Zero);
        return isInstant;
    }

    private static string Said(SentText sent) => string.IsNullOrWhiteSpace(sent.Text) ? "" : sent.Text;
}
