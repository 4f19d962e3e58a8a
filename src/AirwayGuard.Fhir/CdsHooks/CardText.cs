using System.Buffers;
using System.Globalization;
using System.Text;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Makes what was charted harmless in the words of a card.</summary>
public static class CardText
{
    private const char ZeroWidthSpace = '\u200B', ZeroWidthNonJoiner = '\u200C', ZeroWidthJoiner = '\u200D';

    // A part that is shorter tells too little.
    private const int ShortestPart = 40;

    private static readonly SearchValues<char> PartEnds = SearchValues.Create(".;:");

    // Where a line begins with a letter, nothing else in it is changed but an address by its www.
    private static readonly SearchValues<char> MayDoHarm = SearchValues.Create("\\`*_[]#|~<>&@:");

    // Each may begin emphasis, code, a link, an image, a heading or a cell, wherever it stands.
    private static readonly SearchValues<char> Marks = SearchValues.Create("\\`*_[]#|~");

    /// <summary>
    /// The text for GitHub-flavoured Markdown, to be shown as it was charted: nothing in it makes a link, an image, HTML, a heading, a list,
    /// a table or emphasis, at the beginning of a line or within one. Addresses, which become links without any mark, are broken by a
    /// zero-width space.
    /// </summary>
    public static string Escaped(string charted)
    {
        var plain = Plain(charted);
        if (IsHarmless(plain))
        {
            return plain;
        }

        var escaped = new StringBuilder(plain.Length + 16);
        var start = LineStart.Anything;
        for (var i = 0; i < plain.Length; i++)
        {
            var letter = plain[i];
            if (Marks.Contains(letter) || IsMarkAtStart(letter, start))
            {
                escaped.Append('\\');
            }

            // By entity: a client that takes Markdown for HTML shows the same.
            _ = letter switch
            {
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '&' => escaped.Append("&amp;"),
                _ => escaped.Append(letter),
            };
            if (BeginsAddress(plain, i))
            {
                escaped.Append(ZeroWidthSpace);
            }

            start = char.IsAsciiDigit(letter) && start != LineStart.Past ? LineStart.Number
                : start == LineStart.Anything && letter is '-' or '+' or '=' or ':' or ' ' ? LineStart.Anything
                : LineStart.Past;
        }

        return escaped.ToString();
    }

    /// <summary>
    /// The text in one line: control characters, line breaks and what turns the direction of writing become spaces, of which one is left
    /// between words and none at the ends.
    /// </summary>
    public static string Plain(string charted)
    {
        ArgumentNullException.ThrowIfNull(charted);
        if (IsPlain(charted))
        {
            return charted;
        }

        var plain = new StringBuilder(charted.Length);
        Span<char> letters = stackalloc char[2];
        foreach (var rune in charted.EnumerateRunes())
        {
            if (!IsSpace(rune))
            {
                plain.Append(letters[..rune.EncodeToUtf16(letters)]);
            }
            else if (plain.Length > 0 && plain[^1] != ' ')
            {
                plain.Append(' ');
            }
        }

        return plain.ToString().TrimEnd(' ');
    }

    /// <summary>One line under 140 characters: the whole, else up to where a part of it ends, else as many words as fit.</summary>
    public static string Summary(string said)
    {
        var plain = Plain(said);
        var end = plain.Length < CardsJson.SummaryUnder ? -1 : LastPartEnd(plain.AsSpan(0, CardsJson.SummaryUnder - 1));
        return end > ShortestPart ? plain[..end] + "." : Short(plain);
    }

    // Not the point within a number.
    private static int LastPartEnd(ReadOnlySpan<char> text)
    {
        var end = text.LastIndexOfAny(PartEnds);
        while (end >= 0 && end + 1 < text.Length && text[end + 1] != ' ')
        {
            end = text[..end].LastIndexOfAny(PartEnds);
        }

        return end < text.Length - 1 ? end : -1;
    }

    /// <summary>The sentence where it has fewer than 140 characters, else as many of its words as leave room for an ellipsis.</summary>
    public static string Short(string sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        if (sentence.Length < CardsJson.SummaryUnder)
        {
            return sentence;
        }

        // One less than may stand, for the ellipsis.
        const int Most = CardsJson.SummaryUnder - 2;
        var end = sentence.LastIndexOf(' ', Most);
        if (end <= 0)
        {
            end = char.IsHighSurrogate(sentence[Most - 1]) ? Most - 1 : Most;
        }

        return sentence[..end].TrimEnd(' ', ',', ';', ':', '-', '(', '.') + "…";
    }

    private enum LineStart
    {
        /// <summary>Only marks so far that may begin a list, an underline of a heading or a table.</summary>
        Anything,

        /// <summary>Only digits so far.</summary>
        Number,

        Past,
    }

    private static bool IsMarkAtStart(char letter, LineStart start) => start switch
    {
        LineStart.Anything => letter is '-' or '+' or '=' or ':',
        LineStart.Number => letter is '.' or ')',
        _ => false,
    };

    // Nearly all that a card says: printable ASCII with single spaces.
    private static bool IsPlain(string text) =>
        !text.AsSpan().ContainsAnyExceptInRange(' ', '~') && !text.Contains("  ", StringComparison.Ordinal) && !text.StartsWith(' ') && !text.EndsWith(' ');

    private static bool IsHarmless(string plain) =>
        (plain.Length == 0 || char.IsAsciiLetter(plain[0])) && !plain.AsSpan().ContainsAny(MayDoHarm) && !plain.Contains("www", StringComparison.OrdinalIgnoreCase);

    private static bool BeginsAddress(string text, int at) => text[at] switch
    {
        '@' => true,
        ':' => at + 1 < text.Length && text[at + 1] == '/',
        'w' or 'W' => at >= 2 && at + 1 < text.Length && text[at + 1] == '.' && text.AsSpan(at - 2, 3).Equals("www", StringComparison.OrdinalIgnoreCase),
        _ => false,
    };

    private static bool IsSpace(Rune rune) =>
        Rune.IsControl(rune) || Rune.IsWhiteSpace(rune)
        || (Rune.GetUnicodeCategory(rune) == UnicodeCategory.Format && rune.Value is not (ZeroWidthJoiner or ZeroWidthNonJoiner));
}
