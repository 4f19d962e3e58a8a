using System.Globalization;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Number and quantity values, <c>[prefix]number|system|code</c> (R4 search.html#number and #quantity). Units are compared, not converted.</summary>
internal static class NumberTerm
{
    public static Condition Read(string name, string value)
    {
        var parts = SearchText.Split(value, '|');
        var (prefix, text) = Prefix.Take(parts[0]);
        if (parts.Count is not (1 or 3) || !double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
        {
            throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", $"{name} has a value that is not a number.");
        }

        // R4 search.html#number: 100 means 99.5 up to 100.5, 100.00 means 99.995 up to 100.005.
        var half = HalfStep(text);
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

    private static double HalfStep(string text)
    {
        var exponentAt = text.IndexOfAny(['e', 'E']);
        var exponent = exponentAt < 0 ? 0 : int.Parse(text[(exponentAt + 1)..], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
        var mantissa = exponentAt < 0 ? text : text[..exponentAt];
        var dot = mantissa.IndexOf('.', StringComparison.Ordinal);
        var decimals = dot < 0 ? 0 : mantissa.Length - dot - 1;
        return 0.5 * Math.Pow(10, exponent - decimals);
    }
}
