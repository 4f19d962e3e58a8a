namespace AirwayGuard.TestKit.Histories;

/// <summary>What is charted of a regulator at one instant.</summary>
internal sealed record Setting(string Line, DateTimeOffset At, IReadOnlyList<Item> Vacuums, IReadOnlyList<Item> Modes)
{
    /// <summary>The rows whose value was judged.</summary>
    public static IReadOnlyList<string> About(IEnumerable<Item> judged) => [.. judged.Select(i => i.Row.Reference).Distinct(StringComparer.Ordinal)];
}

/// <summary>How rows become settings, and what belongs to a vacuum.</summary>
internal static class Settings
{
    public static IReadOnlyList<Setting> Of(Checks checks) =>
    [
        // "Setting: vacuum-pressure, vacuum-set or regulator-mode rows; those of one line at one instant are one setting."
        .. checks.Known.Items
            .Where(i => (IsVacuum(i) && i.Number is not null) || (i.Concept == "regulator-mode" && i.Answer is "regulated" or "intermittent" or "full-line" or "off"))
            .Where(i => Use(checks, i) == "airway")
            .GroupBy(i => (Line: Line(checks, i), i.At.UtcTicks))
            .Select(g => new Setting(g.Key.Line, g.First().At, [.. g.Where(IsVacuum)], [.. g.Where(i => !IsVacuum(i))]))
            .OrderBy(s => s.At),
    ];

    // "A value charted in another unit and within 0.5 mm[Hg] of the limit equals it; in the limit's own unit it is compared exactly."
    public static Outcome Compare(IEnumerable<Criterion> criteria, ReferenceNumber number) => Criterion.JudgeAll(criteria, c =>
    {
        var depth = number.MmHgIn(number.Unit)!.Value;
        return c.Judge(number.Unit != "mm[Hg]" && Math.Abs(depth - c.Limit) <= 0.5m ? c.Limit : depth, number.Comparator);
    });

    /// <summary>Without a unit: whether it is over the ceiling in every unit of pressure in which it is possible at all.</summary>
    public static bool IsOverInEveryUnit(ReferenceNumber number, IReadOnlyList<Criterion> criteria)
    {
        var possible = ReferenceNumber.Pressures.Keys.Where(u => number.MmHgIn(u) <= 760m).ToList();
        return number.Unit is null && possible.Count > 0 && possible.TrueForAll(u => Compare(criteria, number with { Unit = u }) == Outcome.Breach);
    }

    // "Doubtful unit: missing without row default; not a unit of pressure among …; magnitude under 20 mm[Hg] (not 0) or over 760
    // after conversion; or another unit than the same row's previous reading where the number read in the earlier unit, but not as
    // written, lies in 40 to 700 mm[Hg]"
    public static bool IsDoubtful(KnownCharting known, Item vacuum)
    {
        var number = vacuum.Number!;
        if (number.MmHgIn(number.Unit) is not { } depth || (depth < 20m && depth != 0m) || depth > 760m)
        {
            return true;
        }

        var previous = known.Of(vacuum.Concept).LastOrDefault(v => v.At < vacuum.At && v.Number is not null)?.Number;
        return previous?.Unit != number.Unit && number.MmHgIn(previous?.Unit) is >= 40m and <= 700m && depth is not (>= 40m and <= 700m);
    }

    // Mode and set value hold until changed, at most 12 h.
    public static string? ModeAt(IReadOnlyList<Setting> line, DateTimeOffset at)
    {
        var latest = line.LastOrDefault(s => s.Modes.Count > 0 && s.At <= at && at - s.At <= TimeSpan.FromHours(12));
        return latest is null ? null : latest.Modes.Any(m => m.Answer == "full-line") ? "full-line" : latest.Modes[0].Answer;
    }

    // A component of the reading, or a row of its instant.
    public static string? Method(KnownCharting known, Item vacuum) => Beside(known, vacuum, "vacuum-reading-method");

    // Said of the reading, the mode or the Device; where nobody says, a row charted on a patient counts as airway.
    public static string Use(Checks checks, Item item) =>
        Beside(checks.Known, item, "suction-use") ?? RegulatorOf(checks, item)?.Use ?? "airway";

    private static string? Beside(KnownCharting known, Item item, string concept) =>
        known.Of(concept).FirstOrDefault(i => i.Row == item.Row)?.Answer
        ?? known.Of(concept).FirstOrDefault(i => i.At == item.At && i.Row.Concept == concept && i.Row.Device == item.Row.Device)?.Answer;

    // The regulator that the row, or the pass it belongs to, names; else the patient's episode.
    public static string Line(Checks checks, Item item) => RegulatorOf(checks, item)?.Reference ?? checks.EpisodeLine(item.At);

    public static Thing? RegulatorOf(Checks checks, Item item) =>
        Regulator(checks.Known, item.Row.Device)
            ?? checks.Passes.Of(item.Row)?.Act?.Used.Select(id => Regulator(checks.Known, "Device/" + id)).FirstOrDefault(t => t is not null);

    public static Thing? Regulator(KnownCharting known, string? device)
    {
        var id = device is null ? null
            : known.History.Metrics.FirstOrDefault(m => m.Reference == device)?.Thing
            ?? known.History.Things.FirstOrDefault(t => t.Reference == device)?.Id;
        return id is not null && known.Thing(id) is { Kind: "vacuum-regulator" } regulator ? regulator : null;
    }

    public static bool IsVacuum(Item item) => item.Concept is "vacuum-pressure" or "vacuum-set";

    // A set value is also a pressure whose metric is of category setting.
    public static bool IsSetValue(KnownCharting known, Item item) =>
        item.Concept == "vacuum-set" || known.History.Metrics.Any(m => m.Reference == item.Row.Device && m.Category == "setting");
}
