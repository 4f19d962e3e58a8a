namespace AirwayGuard.TestKit.Histories;

/// <summary>cuff-pressure-out-of-range over cuff rows of children and adults; it stands on the airway in use.</summary>
internal static class CuffCheck
{
    private const string Check = "cuff-pressure-out-of-range";

    public static void Judge(Checks checks)
    {
        // A pressure without a unit is not used.
        var rows = checks.Known.Of("cuff-pressure").Where(i => i.Number is { Unit: "cm[H2O]" or "mm[Hg]" });
        foreach (var line in rows.GroupBy(i => checks.Airways.InUse(i.At)?.Line ?? checks.EpisodeLine(i.At), StringComparer.Ordinal))
        {
            var found = new List<Occurrence>();
            var inside = new List<(DateTimeOffset, Func<IReadOnlyList<Occurrence>, bool>)>();
            foreach (var item in line)
            {
                var outcome = Worst(Compare(checks, item, new(false, 20m, Floor: true)), Compare(checks, item, new(false, 30m)));
                if (outcome == Outcome.Breach)
                {
                    found.Add(new(Check, line.Key, item.At, [item.Row.Reference], "moderate", checks.Band(item.At)) { Value = Pressure(item), Unit = "cm[H2O]" });
                }
                else if (outcome == Outcome.Pass)
                {
                    inside.Add((item.At, _ => true));
                }
                else if (outcome == Outcome.CannotTell)
                {
                    checks.Out.CannotTell(Check, line.Key, item.At);
                }
            }

            var ended = checks.Airways.IsAirway(line.Key) && checks.Choices.EndedLineClears && checks.Airways.OfLine(line.Key).End is not null;
            checks.Out.Line(found, inside, since => ended || checks.HasEnded(line.Key, since));
        }
    }

    private static Outcome Worst(Outcome one, Outcome other) => one > other ? one : other;

    // In another unit and within 0.5 cm[H2O] of a limit, it equals it.
    private static Outcome Compare(Checks checks, Item item, Criterion criterion) => checks.Compare(
        item.At, b => b is ReferenceAge.Child or ReferenceAge.Adult ? criterion : null,
        c => c.Judge(item.Number!.Unit != "cm[H2O]" && Math.Abs(Pressure(item) - c.Limit) <= 0.5m ? c.Limit : Pressure(item), item.Number.Comparator));

    private static decimal Pressure(Item item) =>
        item.Number!.Amount * ReferenceNumber.Pressures[item.Number.Unit!] / ReferenceNumber.Pressures["cm[H2O]"];
}
