namespace AirwayGuard.TestKit.Histories;

/// <summary>Inspired oxygen as fractions, and the one a pass starts from.</summary>
internal static class Oxygen
{
    // 0.21 to 1 is a fraction, 21 to 100 a percentage, between them is doubtful.
    public static decimal? Fraction(ReferenceNumber? number) => number switch
    {
        { Unit: null or "%" or "1", Amount: >= 0.21m and <= 1m } n => n.Amount,
        { Unit: null or "%" or "1", Amount: >= 21m and <= 100m } n => n.Amount / 100m,
        _ => null,
    };

    // The latest from 4 h to 3 min before, outside any charted pre-oxygenation.
    public static decimal? Baseline(KnownCharting known, DateTimeOffset start)
    {
        var oxygenated = known.Of("preoxygenation").Where(o => o.YesNo != false && o.Value is not Charted.NotPerformed).ToList();
        var baseline = known.Of("fio2").LastOrDefault(i => Fraction(i.Number) is not null
            && start - i.At <= TimeSpan.FromHours(4) && start - i.At >= TimeSpan.FromMinutes(3)
            && !oxygenated.Exists(o => i.At >= o.At && i.At <= (o.Row.End ?? o.At)));
        return Fraction(baseline?.Number);
    }

    // Within the two minutes before the start.
    public static bool IsJustBefore(Item item, DateTimeOffset start) => item.At <= start && (item.Row.End ?? item.At) >= start - TimeSpan.FromMinutes(2);
}
