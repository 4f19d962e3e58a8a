using System.Globalization;
using System.Text;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Schema;

/// <summary>What the reader takes of a text, as patterns of the kind that JSON Schema knows (ECMA-262). They may take more, never less.</summary>
internal static class Patterns
{
    /// <summary>A number as <see cref="Amount.TryNumber"/> takes it, its upper bound apart.</summary>
    private const string Number = @"(\d+\.?\d*|\.\d+)";

    public const string NotBlank = @"\S";

    /// <summary>A mark of a severity: a number, alone or with a unit.</summary>
    public const string Mark = @"^\s*" + Number + @"( +\S+)?\s*$";

    /// <summary>A sentence in which braces hold nothing but known names.</summary>
    public static string Sentence => $@"^([^{{}}]|{string.Join('|', Placeholders.Known.Select(Escaped))})*$";

    /// <summary>One amount in a unit of the dimension.</summary>
    public static string Amount(Dimension dimension) => $@"^\s*{Number}{Unit(dimension)}\s*$";

    /// <summary>Two amounts in one unit of the dimension.</summary>
    public static string Range(Dimension dimension) => $@"^\s*{Number} +to +{Number}{Unit(dimension)}\s*$";

    /// <summary>Whole hours or minutes from nothing to the most given.</summary>
    public static string SpanTo(TimeSpan most) =>
        $@"^\s*({UpTo((int)most.TotalHours)} +h|{UpTo((int)most.TotalMinutes)} +min)\s*$";

    /// <summary>A ratio and a count may stand alone; anything else needs its unit.</summary>
    public static bool MayBeBare(Dimension dimension) => dimension is Dimension.Fraction or Dimension.Count;

    private static string Unit(Dimension dimension)
    {
        var units = Units.Of(dimension).Select(unit => Escaped(Units.Ucum(unit))).ToList();
        if (dimension == Dimension.Count)
        {
            units.Add(@"\{.*\}");
        }

        if (dimension == Dimension.Volume)
        {
            units.Add("ml");
        }

        var unit = $" +({string.Join('|', units)})";
        return MayBeBare(dimension) ? $"({unit})?" : unit;
    }

    /// <summary>Whole numbers from 0 to the most, with zeros in front allowed: of each length the numbers that some digit makes smaller, and the most itself.</summary>
    private static string UpTo(int most)
    {
        var digits = most.ToString(CultureInfo.InvariantCulture);
        var ways = new List<string>();
        if (digits.Length > 1)
        {
            ways.Add(digits.Length == 2 ? @"\d" : Invariant($@"\d{{1,{digits.Length - 1}}}"));
        }

        for (var i = 0; i < digits.Length; i++)
        {
            if (digits[i] > '0')
            {
                ways.Add($"{digits[..i]}{(digits[i] == '1' ? "0" : $"[0-{(char)(digits[i] - 1)}]")}{Digits(digits.Length - i - 1)}");
            }
        }

        return $"0*({string.Join('|', ways.Append(digits))})";
    }

    private static string Digits(int count) => count == 0 ? "" : count == 1 ? @"\d" : Invariant($@"\d{{{count}}}");

    private static string Escaped(string text)
    {
        var escaped = new StringBuilder();
        foreach (var sign in text)
        {
            escaped.Append(char.IsAsciiLetterOrDigit(sign) || sign is ' ' or '%' or '\'' or '_' ? "" : "\\").Append(sign);
        }

        return escaped.ToString();
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
