using System.Text;

namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>
/// C# with comments and the text of literals blanked out, every character at its old place; what stands in the holes of an
/// interpolated string is code and stays. Keeps rules about code from reading words in a comment or message.
/// </summary>
internal sealed class CodeText
{
    private readonly string text;
    private readonly StringBuilder code;
    private int at;

    private CodeText(string text)
    {
        this.text = text;
        code = new StringBuilder(text);
    }

    public static string Of(string text)
    {
        var reading = new CodeText(text);
        reading.ReadCode(holeBraces: 0);
        return reading.code.ToString();
    }

    private bool Sees(string what) => string.CompareOrdinal(text, at, what, 0, what.Length) == 0;

    private void Blank(int count)
    {
        for (var end = Math.Min(at + count, text.Length); at < end; at++)
        {
            if (text[at] is not ('\n' or '\r'))
            {
                code[at] = ' ';
            }
        }
    }

    private void BlankUntil(int end) => Blank(Math.Max(0, end - at));

    private int IndexOfEnd(string what)
    {
        var found = text.IndexOf(what, at, StringComparison.Ordinal);
        return found < 0 ? text.Length : found + what.Length;
    }

    /// <param name="holeBraces">Braces that close the hole this code stands in; 0 for the file itself.</param>
    private void ReadCode(int holeBraces)
    {
        var open = 0;
        while (at < text.Length)
        {
            if (Sees("//"))
            {
                var end = text.IndexOf('\n', at);
                BlankUntil(end < 0 ? text.Length : end);
            }
            else if (Sees("/*"))
            {
                at += 2;
                var end = IndexOfEnd("*/");
                at -= 2;
                BlankUntil(end);
            }
            else if (text[at] == '\'')
            {
                ReadCharacter();
            }
            else if (text[at] is '"' or '$' or '@' && TryReadString())
            {
            }
            else if (holeBraces > 0 && text[at] == '}' && open == 0)
            {
                at += holeBraces;
                return;
            }
            else
            {
                open += text[at] switch { '{' => 1, '}' => -1, _ => 0 };
                at++;
            }
        }
    }

    private void ReadCharacter()
    {
        var end = at + 1;
        while (end < text.Length && text[end] is not ('\'' or '\n'))
        {
            end += text[end] == '\\' ? 2 : 1;
        }

        BlankUntil(end + 1);
    }

    private bool TryReadString()
    {
        var quote = at;
        while (quote < text.Length && text[quote] is '$' or '@')
        {
            quote++;
        }

        if (quote >= text.Length || text[quote] != '"')
        {
            return false;
        }

        var prefix = text.AsSpan(at, quote - at);
        var dollars = prefix.Count('$');
        var verbatim = prefix.Contains('@');
        var quotes = 1;
        while (quote + quotes < text.Length && text[quote + quotes] == '"')
        {
            quotes++;
        }

        BlankUntil(quote);
        if (!verbatim && quotes >= 3)
        {
            Blank(quotes);
            ReadRaw(quotes, dollars);
        }
        else
        {
            Blank(1);
            ReadQuoted(verbatim, dollars > 0);
        }

        return true;
    }

    private void ReadRaw(int quotes, int dollars)
    {
        var end = new string('"', quotes);
        while (at < text.Length && !Sees(end))
        {
            var braces = 0;
            while (dollars > 0 && at + braces < text.Length && text[at + braces] == '{')
            {
                braces++;
            }

            if (braces >= dollars && dollars > 0)
            {
                Blank(braces - dollars);
                at += dollars;
                ReadCode(dollars);
            }
            else
            {
                Blank(Math.Max(1, braces));
            }
        }

        Blank(quotes);
    }

    private void ReadQuoted(bool verbatim, bool holes)
    {
        while (at < text.Length)
        {
            var pair = at + 1 < text.Length ? text[at + 1] : '\0';
            if ((!verbatim && text[at] == '\\') || (verbatim && text[at] == '"' && pair == '"') || (holes && text[at] == '{' && pair == '{'))
            {
                Blank(2);
            }
            else if (text[at] == '"')
            {
                Blank(1);
                return;
            }
            else if (holes && text[at] == '{')
            {
                at++;
                ReadCode(1);
            }
            else
            {
                Blank(1);
            }
        }
    }
}
