using System.Globalization;
using System.Text;

namespace AirwayGuard.Core.Orders;

/// <summary>Cuts an order's text into words, numbers and signs, in one walk.</summary>
internal static class Tokenizer
{
    private const int LongestNumber = 9;

    // Formulas that hold a two: letters on either side of it are one word.
    private static readonly HashSet<string> BeforeTwo = new(StringComparer.Ordinal)
    {
        "h", "cmh", "o", "spo", "sao", "pao", "fio", "etco", "tco", "co", "paco", "preo", "svo",
    };

    public static List<Token> Cut(string text)
    {
        var tokens = new List<Token>();
        var end = 0;
        for (var i = 0; i < text.Length;)
        {
            var c = Fold(text[i]);
            if (IsTurning(c))
            {
                // What stands on either side of it still touches.
                end += end == i ? 1 : 0;
                i++;
            }
            else if (c is '\n' or '\r' or '\u2028' or '\u2029' or '\u0085')
            {
                tokens.Add(new Token(TokenKind.LineBreak, new TextSpan(i, 1), "\n", 0m, TokenMarks.None));
                i++;
            }
            else if (char.IsWhiteSpace(c))
            {
                i++;
            }
            else
            {
                var token = char.IsAsciiDigit(c) || StartsDecimal(text, i, c) ? Number(text, i) : char.IsLetter(c) ? Word(text, i) : Sign(text, i, c);
                var touches = tokens.Count > 0 && end == i && tokens[^1].Kind != TokenKind.LineBreak;
                tokens.Add(touches ? token with { Marks = token.Marks | TokenMarks.Touches } : token);
                i += token.Span.Length;
                end = i;
            }
        }

        return tokens;
    }

    // Full-width forms and the small two of chemistry stand for the plain ones; all dashes are one.
    private static char Fold(char c) => c switch
    {
        >= '\uFF01' and <= '\uFF5E' => (char)(c - 0xFEE0),
        '\u2082' => '2',
        '\u2010' or '\u2011' or '\u2012' or '\u2013' or '\u2014' or '\u2212' => '-',
        '\u2019' or '\u02BC' => '\'',
        _ => c,
    };

    /// <summary>A mark that says which way to write: it carries no word and cannot be seen.</summary>
    public static bool IsTurning(char c) => c is '\u200E' or '\u200F' or (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');

    private static bool StartsDecimal(string text, int at, char c) =>
        c == '.' && at + 1 < text.Length && char.IsAsciiDigit(Fold(text[at + 1])) && (at == 0 || !(char.IsLetterOrDigit(text[at - 1]) || text[at - 1] == '.'));

    private static Token Number(string text, int start)
    {
        var (end, separators, marks) = (start, 0, TokenMarks.None);
        var (comma, afterPoint) = (false, 0);
        var digits = new StringBuilder();
        if (Fold(text[start]) == '.')
        {
            marks |= TokenMarks.NoLeadingZero;
            digits.Append('0');
        }

        for (; end < text.Length; end++)
        {
            var c = Fold(text[end]);
            if (char.IsAsciiDigit(c))
            {
                digits.Append(c);
                afterPoint += separators > 0 ? 1 : 0;
            }
            else if (c is '.' or ',' && end + 1 < text.Length && char.IsAsciiDigit(Fold(text[end + 1])))
            {
                separators++;
                comma |= c == ',';
                digits.Append('.');
            }
            else
            {
                break;
            }
        }

        // One decimal place behind a comma is a decimal; any more may be thousands, or two numbers of a list.
        var isOpen = separators > 1 || (comma && afterPoint != 1) || digits.Length > LongestNumber || IsHiddenBeside(text, start - 1, -1) || IsHiddenBeside(text, end, 1);
        if (isOpen || !decimal.TryParse(digits.ToString(), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
        {
            return new Token(TokenKind.Number, new TextSpan(start, end - start), "", 0m, TokenMarks.Doubtful);
        }

        marks |= separators == 1 && digits[^1] == '0' ? TokenMarks.TrailingZero : TokenMarks.None;
        marks |= separators == 0 && digits.Length == 4 && digits[0] == '0' ? TokenMarks.TimeOfDay : TokenMarks.None;
        return new Token(TokenKind.Number, new TextSpan(start, end - start), "", number / 1.0000000000000000000000000000m, marks);
    }

    private static Token Word(string text, int start)
    {
        var end = start;
        var word = new StringBuilder();
        var hasPoint = false;
        while (end < text.Length)
        {
            var c = Fold(text[end]);
            if (char.IsLetter(c))
            {
                word.Append(char.ToLowerInvariant(c));
                end++;
            }
            else if (c is '\u0304' or '\u0305' && word.Length == 1)
            {
                // A bar over c or s: with, without.
                word.Append('\u0304');
                end++;
            }
            else if (c == '\'' && end > start && end + 1 < text.Length && char.IsLetter(Fold(text[end + 1])))
            {
                end++;
            }
            else if (c == '2' && BeforeTwo.Contains(word.ToString()) && (end + 1 >= text.Length || !char.IsAsciiDigit(Fold(text[end + 1]))))
            {
                word.Append('2');
                end++;
            }
            else if (c == '.' && IsAbbreviation(text, end, hasPoint))
            {
                hasPoint = true;
                end++;
            }
            else
            {
                break;
            }
        }

        return new Token(TokenKind.Word, new TextSpan(start, end - start), word.ToString(), 0m, TokenMarks.None);
    }

    // Single letters with points between them: p.r.n. is one word.
    private static bool IsAbbreviation(string text, int point, bool hasPoint)
    {
        var isSingle = point >= 1 && char.IsLetter(text[point - 1]) && (point < 2 || !char.IsLetter(text[point - 2]));
        if (!isSingle)
        {
            return false;
        }

        var next = point + 1 < text.Length && char.IsLetter(text[point + 1]) && (point + 2 >= text.Length || !char.IsLetter(text[point + 2]));
        return next || hasPoint;
    }

    private static Token Sign(string text, int at, char c)
    {
        var next = at + 1 < text.Length ? Fold(text[at + 1]) : '\0';
        var (sign, length) = (c, next) switch
        {
            ('<', '=') => ("≤", 2),
            ('>', '=') => ("≥", 2),
            ('-', '>') or ('=', '>') => ("→", 2),
            ('&', _) when Is(text, at, "&lt;") => ("<", 4),
            ('&', _) when Is(text, at, "&gt;") => (">", 4),
            ('&', _) when Is(text, at, "&amp;") => ("&", 5),
            ('[' or '(', ' ' or ']' or ')') when EmptyBox(text, at) is > 0 and var box => ("☐", box),
            ('(', 'x' or 'X') when Is(text, at, "(x)") => ("☑", 3),
            ('[', 'x' or 'X') when Is(text, at, "[x]") => ("☑", 3),
            _ when char.IsSurrogatePair(c, next) => (text.Substring(at, 2), 2),
            _ when IsHidden(text, at) => ("\uFFFD", 1),
            _ => (c.ToString(), 1),
        };
        return new Token(TokenKind.Sign, new TextSpan(at, length), sign, 0m, TokenMarks.None);
    }

    // Characters from [ to ] with nothing but a few blanks between; 0 where something stands there.
    private static int EmptyBox(string text, int at)
    {
        var end = at + 1;
        while (end < text.Length && end < at + 6 && text[end] == ' ')
        {
            end++;
        }

        return end < text.Length && text[end] is ']' or ')' ? end + 1 - at : 0;
    }

    private static bool Is(string text, int at, string sign) => text.AsSpan(at).StartsWith(sign, StringComparison.OrdinalIgnoreCase);

    // Marks of the way of writing part a number only where digits stand on their other side.
    private static bool IsHiddenBeside(string text, int at, int step)
    {
        var isTurned = false;
        for (; at >= 0 && at < text.Length && IsTurning(text[at]); at += step)
        {
            isTurned = true;
        }

        return isTurned ? at >= 0 && at < text.Length && char.IsDigit(text[at]) : IsHidden(text, at);
    }

    private static bool IsHidden(string text, int at) =>
        at >= 0 && at < text.Length
        && (CharUnicodeInfo.GetUnicodeCategory(text[at]) is UnicodeCategory.Format or UnicodeCategory.Control or UnicodeCategory.DecimalDigitNumber or UnicodeCategory.OtherNumber)
        && text[at] is not ('\n' or '\r' or '\t') && !char.IsAsciiDigit(Fold(text[at]));
}
