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
    public static decimal? Baseline(KnownCharting known, DateTimeOffset start) => Latest(known, start - TimeSpan.FromMinutes(3), start, _ => true);

    // Full oxygen just before an earlier pass of the session was its pre-oxygenation too: the later pass does not start from it.
    public static decimal? Baseline(Checks checks, Pass pass, bool highest = false)
    {
        var session = checks.Passes.Sessions.Single(s => s.Contains(pass));
        return Latest(checks.Known, pass.Start - TimeSpan.FromMinutes(3), pass.Start, i => !IsFullBefore(i, session), highest);
    }

    // What an order is compared with, for which no pass has begun: the latest when it is written.
    public static decimal? At(KnownCharting known, DateTimeOffset at, bool highest = false) => Latest(known, at, at, _ => true, highest);

    // Charted as pre-oxygenation: in its period, or full oxygen just before a pass.
    public static bool IsPreoxygenation(Checks checks, Item oxygen) =>
        IsWithinPreoxygenation(checks.Known, oxygen) || IsFullBefore(oxygen, checks.Passes.All);

    // Of several at one instant the lowest, so that no rise hides; where much oxygen is the question, the highest.
    private static decimal? Latest(KnownCharting known, DateTimeOffset until, DateTimeOffset start, Func<Item, bool> counts, bool highest = false)
    {
        var usable = known.Of("fio2").Where(i => Fraction(i.Number) is not null && i.At <= until && start - i.At <= TimeSpan.FromHours(4)
            && !IsWithinPreoxygenation(known, i) && counts(i)).ToList();
        var last = usable.Where(i => i.At == usable.Max(other => other.At)).Select(i => Fraction(i.Number)!.Value).ToList();
        return last.Count == 0 ? null : highest ? last.Max() : last.Min();
    }

    private static bool IsWithinPreoxygenation(KnownCharting known, Item oxygen) => known.Of("preoxygenation").Any(o =>
        o.YesNo != false && o.Value is not Charted.NotPerformed && oxygen.At >= o.At && oxygen.At <= (o.Row.End ?? o.At));

    private static bool IsFullBefore(Item oxygen, IEnumerable<Pass> passes) => Fraction(oxygen.Number) >= 0.99m
        && passes.Any(p => oxygen.At <= p.Start && p.Start - oxygen.At <= TimeSpan.FromMinutes(2));

    // Within the two minutes before the start.
    public static bool IsJustBefore(Item item, DateTimeOffset start) => item.At <= start && (item.Row.End ?? item.At) >= start - TimeSpan.FromMinutes(2);
}
