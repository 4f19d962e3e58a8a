using System.Globalization;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Reads a number charted as text. The whole text must be: a comparator or none, a sign or none, a decimal with a dot or one
/// comma, a space or none, a unit or none; for catheters the unit may go before. Nothing is guessed from part of a text.
/// </summary>
internal static class NumberText
{
    /// <summary>Longer texts are no number.</summary>
    public const int Longest = 48;

    private static readonly (string Word, Comparator Comparator)[] Comparators =
    [
        ("<=", Comparator.AtMost), (">=", Comparator.AtLeast), ("≤", Comparator.AtMost), ("≥", Comparator.AtLeast),
        ("<", Comparator.Below), (">", Comparator.Above), ("less than", Comparator.Below), ("more than", Comparator.Above),
        ("greater than", Comparator.Above), ("at most", Comparator.AtMost), ("at least", Comparator.AtLeast),
    ];

    private static readonly string[] CatheterUnits = ["French", "Fr", "FG", "Ch", "F"];

    public static bool TryRead(ReadOnlySpan<char> text, bool isCatheter, CodeMap map, out decimal number, out Unit unit, out Comparator comparator)
    {
        unit = Unit.None;
        comparator = Comparator.Exactly;
        text = text.Trim();
        foreach (var (word, meant) in Comparators)
        {
            if (text.StartsWith(word, StringComparison.OrdinalIgnoreCase))
            {
                comparator = meant;
                text = text[word.Length..].TrimStart();
                break;
            }
        }

        var isUnitBefore = isCatheter && TakeCatheterUnit(ref text);
        var length = NumberLength(text);
        if (!TryDecimal(text[..length], out number))
        {
            return false;
        }

        var rest = text[length..];
        if (isUnitBefore)
        {
            unit = Unit.French;
            return rest.IsEmpty;
        }

        // One space at most between number and unit.
        rest = rest.Length > 1 && char.IsWhiteSpace(rest[0]) ? rest[1..] : rest;
        return TryUnit(rest, map, out unit);
    }

    private static bool TakeCatheterUnit(ref ReadOnlySpan<char> text)
    {
        foreach (var before in CatheterUnits)
        {
            if (text.StartsWith(before, StringComparison.OrdinalIgnoreCase))
            {
                text = text[before.Length..].TrimStart();
                return true;
            }
        }

        return false;
    }

    private static int NumberLength(ReadOnlySpan<char> text)
    {
        var at = text.IsEmpty || text[0] is not ('-' or '+' or '−') ? 0 : 1;
        while (at < text.Length && (char.IsAsciiDigit(text[at]) || text[at] is '.' or ','))
        {
            at++;
        }

        return at;
    }

    private static bool TryDecimal(ReadOnlySpan<char> text, out decimal number)
    {
        number = 0m;
        Span<char> plain = stackalloc char[Longest];
        if (text.IsEmpty || text.Length > plain.Length)
        {
            return false;
        }

        text.CopyTo(plain);
        plain = plain[..text.Length];
        plain.Replace('−', '-');
        plain.Replace(',', '.');
        var digits = plain[0] is '-' or '+' ? plain[1..] : plain;
        return !digits.IsEmpty && char.IsAsciiDigit(digits[0]) && char.IsAsciiDigit(digits[^1]) && digits.Count('.') <= 1
            && decimal.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number);
    }

    private static bool TryUnit(ReadOnlySpan<char> text, CodeMap map, out Unit unit)
    {
        unit = Unit.None;
        if (text.IsEmpty)
        {
            return true;
        }

        if (char.IsWhiteSpace(text[0]))
        {
            return false;
        }

        unit = map.UnitOf(text.ToString());
        return unit != Unit.Unknown || LooksLikeAUnit(text);
    }

    // A unit that is not known is told as such; anything that might be more charting makes the whole text unreadable.
    private static bool LooksLikeAUnit(ReadOnlySpan<char> text)
    {
        if (text.Length > 12 || !(char.IsLetter(text[0]) || text[0] is '%' or '/' or '[' or '{'))
        {
            return false;
        }

        foreach (var character in text)
        {
            if (!char.IsLetter(character) && character is not ('%' or '/' or '[' or ']' or '{' or '}' or '_' or '.'))
            {
                return false;
            }
        }

        return true;
    }
}
