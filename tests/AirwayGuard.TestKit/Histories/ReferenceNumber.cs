using System.Globalization;

namespace AirwayGuard.TestKit.Histories;

/// <summary>A number as the reference judge reads it. Unit: a UCUM code, <c>?</c> for one it does not know, none where none is charted.</summary>
public sealed record ReferenceNumber(decimal Amount, string? Unit, string? Comparator)
{
    /// <summary>Micropascals in one of each unit of pressure that is known (UCUM: m[Hg] = 133.322 kPa, m[H2O] = 9.80665 kPa, inch = 2.54 cm).</summary>
    public static readonly IReadOnlyDictionary<string, decimal> Pressures = new Dictionary<string, decimal>(StringComparer.Ordinal)
    {
        ["mm[Hg]"] = 133_322_000m, ["kPa"] = 1_000_000_000m, ["cm[H2O]"] = 98_066_500m, ["[in_i'Hg]"] = 3_386_378_800m,
        ["cm[Hg]"] = 1_333_220_000m, ["mbar"] = 100_000_000m, ["hPa"] = 100_000_000m,
    };

    private const string Unknown = "unit not recognised";

    // Units as they are printed, for their UCUM code.
    private static readonly Dictionary<string, string> Printed = new(StringComparer.OrdinalIgnoreCase)
    {
        ["mmHg"] = "mm[Hg]", ["mm Hg"] = "mm[Hg]", ["cmH2O"] = "cm[H2O]", ["inHg"] = "[in_i'Hg]", ["cmHg"] = "cm[Hg]", ["sec"] = "s", ["cc"] = "mL",
        ["Fr"] = "[Ch]", ["F"] = "[Ch]", ["Ch"] = "[Ch]", ["FG"] = "[Ch]",
    };

    private static readonly HashSet<string> Codes = new(StringComparer.Ordinal)
    {
        "mm[Hg]", "kPa", "cm[H2O]", "[in_i'Hg]", "cm[Hg]", "mbar", "hPa", "[Ch]", "mm", "cm", "s", "min", "%", "1", "{count}", "wk", "d", "/min", "mL", "kg", "g",
    };

    /// <summary>The number in mm[Hg] without its sign, were it charted in the unit. None for what is not a unit of pressure.</summary>
    public decimal? MmHgIn(string? unit) =>
        unit is not null && Pressures.TryGetValue(unit, out var factor) ? Math.Abs(Amount) * factor / Pressures["mm[Hg]"] : null;

    /// <summary>The number of a charted value; none where it holds no readable one.</summary>
    public static ReferenceNumber? Read(Charted value) => value switch
    {
        Charted.Number { Form: NumberForm.Text } n => ReadText(TextOf(n)),
        Charted.Number n => new(n.Amount, UnitOf(n.Unit), n.Comparator),
        Charted.Words w => ReadText(w.Text),
        _ => null,
    };

    /// <summary>The string a number of that form is charted as.</summary>
    public static string TextOf(Charted.Number number) =>
        number.Amount.ToString(CultureInfo.InvariantCulture) + (number.Unit is null ? "" : " " + number.Unit);

    // A text is a number only as a whole: a sign, a decimal with a dot or one comma, a unit. French sizes may have theirs in
    // front.
    private static ReferenceNumber? ReadText(string text)
    {
        text = text.Trim();
        var before = new[] { "Fr", "FG", "F", "Ch" }.FirstOrDefault(u => text.StartsWith(u, StringComparison.OrdinalIgnoreCase));
        if (before is not null)
        {
            text = text[before.Length..].TrimStart() + " " + before;
        }

        var length = text.TakeWhile((c, i) => char.IsAsciiDigit(c) || c is '.' or ',' || (i == 0 && c is '+' or '-')).Count();
        var digits = text[..length].Replace(',', '.');
        if (digits.Count(c => c == '.') > 1 || !decimal.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out var amount))
        {
            return null;
        }

        var unit = UnitOf(text[length..].Trim());
        return unit == Unknown ? null : new(amount, unit, null);
    }

    private static string? UnitOf(string? unit) =>
        string.IsNullOrEmpty(unit) ? null : Codes.Contains(unit) ? unit : Printed.GetValueOrDefault(unit, Unknown);
}
