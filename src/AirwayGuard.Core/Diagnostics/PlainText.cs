using System.Globalization;
using System.Text;

namespace AirwayGuard.Core.Diagnostics;

/// <summary>Text for a terminal: what a file, a name or a row brings along must not move the cursor, colour, hide or reorder a line.</summary>
public static class PlainText
{
    /// <summary>
    /// The text with every control character (escape, line breaks, C1), every format character (direction marks) and every half of a
    /// surrogate pair written out as <c>\u001B</c>. Everything else stays as it is.
    /// </summary>
    public static string Visible(string text)
    {
        var first = 0;
        while (first < text.Length && !IsHidden(text, first))
        {
            first++;
        }

        if (first == text.Length)
        {
            return text;
        }

        var visible = new StringBuilder(text, 0, first, text.Length + 16);
        for (var i = first; i < text.Length; i++)
        {
            if (IsHidden(text, i))
            {
                visible.Append(CultureInfo.InvariantCulture, $"\\u{(int)text[i]:X4}");
            }
            else
            {
                visible.Append(text[i]);
            }
        }

        return visible.ToString();
    }

    private static bool IsHidden(string text, int at) => char.GetUnicodeCategory(text[at]) switch
    {
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator => true,
        UnicodeCategory.Surrogate => !(char.IsHighSurrogate(text[at]) ? at + 1 < text.Length && char.IsLowSurrogate(text[at + 1]) : at > 0 && char.IsHighSurrogate(text[at - 1])),
        _ => false,
    };
}
