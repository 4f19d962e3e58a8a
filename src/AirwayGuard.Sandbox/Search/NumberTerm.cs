using System.Globalization;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Number and quantity values, <c>[prefix]number|system|code</c> (R4 search.html#number and #quantity). Units are compared, not converted.</summary>
internal static class NumberTerm
{
    public static Condition Read(string name, string value)
    {
        var parts = SearchText.Split(value, '|');
        var (prefix, text) = Prefix.Take(parts[0]);
        if (parts.Count is not (1 or 3) || !TryNumber(text, out var number, out var half))
        {
            throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", $"{name} has a value that is not a number.");
        }

        var term = prefix switch
        {
            "eq" => Condition.Of("(value>=? AND value<?)", number - half, number + half),
            "ne" => Condition.Of("NOT (value>=? AND value<?)", number - half, number + half),
            "gt" or "sa" => Condition.Of("value>?", number),
            "ge" => Condition.Of("value>=?", number),
            "lt" or "eb" => Condition.Of("value<?", number),
            "le" => Condition.Of("value<=?", number),
            _ => Condition.Of("(value>=? AND value<=?)", number - Math.Abs(number / 10), number + Math.Abs(number / 10)),
        };
        if (parts.Count == 1)
        {
            return term;
        }

        var (system, code) = (SearchText.Unescape(parts[1]), SearchText.Unescape(parts[2]));
        var unit = system.Length == 0
            ? Condition.Of("(code=? OR unit=?)", code, code)
            : Condition.Of("(code=? AND system=?)", code, system);
        return Condition.Join(" AND ", [term, unit]);
    }

    /// <param name="half">Half of the last digit's worth (R4 search.html#number): 100 means 99.5 up to 100.5, 100.00 means 99.995 up to 100.005.</param>
    private static bool TryNumber(string text, out double number, out double half)
    {
        half = 0;
        if (!double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out number)
            || !double.IsFinite(number))
        {
            return false;
        }

        var exponentAt = text.IndexOfAny(['e', 'E']);
        var exponent = 0;
        if (exponentAt >= 0 && !int.TryParse(text[(exponentAt + 1)..], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out exponent))
        {
            return false;
        }

        var mantissa = exponentAt < 0 ? text : text[..exponentAt];
        var dot = mantissa.IndexOf('.', StringComparison.Ordinal);
        var decimals = dot < 0 ? 0 : mantissa.Length - dot - 1;
        half = 0.5 * Math.Pow(10, (double)exponent - decimals);
        return double.IsFinite(half);
    }
}
