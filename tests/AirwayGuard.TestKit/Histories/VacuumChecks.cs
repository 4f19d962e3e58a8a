namespace AirwayGuard.TestKit.Histories;

/// <summary>vacuum-above-ceiling, regulator-on-full-line and vacuum-unit-doubtful over settings.</summary>
internal static class VacuumChecks
{
    private const string Ceiling = "vacuum-above-ceiling", FullLine = "regulator-on-full-line", Doubtful = "vacuum-unit-doubtful";

    private sealed record Setting(string Line, DateTimeOffset At, IReadOnlyList<Item> Vacuums, IReadOnlyList<Item> Modes)
    {
        /// <summary>The rows whose value was judged.</summary>
        public static IReadOnlyList<string> About(IEnumerable<Item> judged) => [.. judged.Select(i => i.Row.Reference).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>Judges all settings and returns how many there are.</summary>
    public static int Judge(Checks checks)
    {
        // "Setting: vacuum-pressure, vacuum-set or regulator-mode rows; those of one line at one instant are one setting."
        var settings = checks.Known.Items
            .Where(i => (IsVacuum(i) && i.Number is not null) || (i.Concept == "regulator-mode" && i.Answer is "regulated" or "intermittent" or "full-line" or "off"))
            .Where(i => Use(checks, i) == "airway")
            .GroupBy(i => (Line: Line(checks, i), i.At.UtcTicks))
            .Select(g => new Setting(g.Key.Line, g.First().At, [.. g.Where(IsVacuum)], [.. g.Where(i => !IsVacuum(i))]))
            .OrderBy(s => s.At).ToList();
        foreach (var line in settings.GroupBy(s => s.Line, StringComparer.Ordinal))
        {
            JudgeLine(checks, line.Key, [.. line]);
        }

        return settings.Count;
    }

    private static void JudgeLine(Checks checks, string line, List<Setting> settings)
    {
        var over = new List<Occurrence>();
        var clearing = new List<(DateTimeOffset, Func<IReadOnlyList<Occurrence>, bool>)>();
        foreach (var setting in settings)
        {
            var mode = ModeAt(settings, setting.At);
            var band = checks.Band(setting.At);
            var judged = setting.Vacuums.Select(v => (Vacuum: v, Outcome: JudgeVacuum(checks, v, mode))).ToList();
            var worst = judged.Select(j => j.Outcome).DefaultIfEmpty(Outcome.None).Max();
            if (worst == Outcome.Breach)
            {
                var breaching = judged.Where(j => j.Outcome == Outcome.Breach).Select(j => j.Vacuum).ToList();
                var highest = breaching.OrderBy(v => v.Number!.MmHgIn(v.Number.Unit) ?? Math.Abs(v.Number.Amount)).Last();
                var number = highest.Number!;
                over.Add(new(Ceiling, line, setting.At, Setting.About([highest]), "high", band)
                {
                    Value = number.MmHgIn(number.Unit) ?? Math.Abs(number.Amount),
                    Unit = number.Unit is null ? null : "mm[Hg]",
                    // "Full line beside a number: over the ceiling it is an occurrence withheld by regulator-on-full-line"
                    WithheldBy = mode == "full-line" ? FullLine : null,
                    WithoutMethod = breaching.All(v => Method(checks.Known, v) is null),
                });
            }
            else if (worst == Outcome.CannotTell)
            {
                checks.Out.CannotTell(Ceiling, line, setting.At);
            }
            else if (worst == Outcome.Pass && mode is not ("full-line" or "off"))
            {
                // "a later reading at or within the limit on the same line, not in full-line or off, whose method is occluded, or
                // none where every breaching reading of the spell had none."
                var readings = judged.Where(j => j.Outcome == Outcome.Pass && (checks.Choices.SetValueClears || !IsSetValue(checks.Known, j.Vacuum))).ToList();
                var occluded = readings.Exists(j => Method(checks.Known, j.Vacuum) == "occluded");
                clearing.Add((setting.At, spell => readings.Count > 0 && (occluded || spell.All(o => o.WithoutMethod))));
            }

            JudgeDoubt(checks, setting, mode, band);
        }

        checks.Out.Line(over, clearing, since => checks.HasEnded(line, since));
        JudgeFullLine(checks, line, settings);
    }

    // Full line, until another mode is charted; a check judges a row once.
    private static void JudgeFullLine(Checks checks, string line, List<Setting> settings)
    {
        var on = settings.Where(s => s.Modes.Any(m => m.Answer == "full-line"))
            .Select(s => new Occurrence(FullLine, line, s.At, Setting.About(s.Modes.Where(m => m.Answer == "full-line").Take(1)), "high", checks.Band(s.At)) { Code = "full-line" });
        var off = settings.Where(s => s.Modes.Count > 0 && s.Modes.All(m => m.Answer != "full-line"))
            .Select(s => (s.At, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true)));
        checks.Out.Line(on, off, since => checks.HasEnded(line, since));
    }

    private static void JudgeDoubt(Checks checks, Setting setting, string? mode, string band)
    {
        // "0: off, not judged; full-line, only that check"
        var doubtful = setting.Vacuums.FirstOrDefault(v => IsDoubtful(checks.Known, v) && !(v.Number!.Amount == 0 && mode is ("off" or "full-line")));
        if (doubtful is not null)
        {
            checks.Out.Single(new(Doubtful, setting.Line, setting.At, [doubtful.Row.Reference], "moderate", band)
            {
                Value = doubtful.Number!.Amount,
                Unit = doubtful.Number.Unit,
            });
        }
    }

    private static Outcome JudgeVacuum(Checks checks, Item vacuum, string? mode)
    {
        var number = vacuum.Number!;
        if (number.Amount == 0 && mode is (null or "off" or "full-line"))
        {
            // "0: off, not judged; full-line, only that check; no mode, cannot-tell."
            return mode is null ? Outcome.CannotTell : Outcome.None;
        }

        var bands = checks.BandsToCompare(vacuum.At);
        var criteria = Criteria(checks, bands, vacuum.At);
        if (IsDoubtful(checks.Known, vacuum))
        {
            // "Then vacuum-above-ceiling is cannot-tell, except that a missing unit breaches when the number is over the ceiling in
            // every listed unit in which it is possible (760 mm[Hg] or less) at all"
            var possible = ReferenceNumber.Pressures.Keys.Where(u => number.MmHgIn(u) <= 760m).ToList();
            return number.Unit is null && bands.Count > 0 && possible.Count > 0
                && possible.TrueForAll(u => Compare(criteria, number with { Unit = u }) == Outcome.Breach)
                ? Outcome.Breach
                : Outcome.CannotTell;
        }

        var outcome = bands.Count == 0 ? Outcome.CannotTell : Compare(criteria, number);
        if (outcome != Outcome.Pass)
        {
            return outcome;
        }

        // "Full line beside a number: … within it, no verdict."
        if (mode == "full-line")
        {
            return Outcome.None;
        }

        // "Over the limit is a breach by any method; within it, flowing or unknown is cannot-tell."
        return Method(checks.Known, vacuum) is "flowing" or "unknown" ? Outcome.CannotTell : Outcome.Pass;
    }

    // "A value charted in another unit and within 0.5 mm[Hg] of the limit equals it; in the limit's own unit it is compared exactly."
    private static Outcome Compare(IEnumerable<Criterion> criteria, ReferenceNumber number) => Criterion.JudgeAll(criteria, c =>
    {
        var depth = number.MmHgIn(number.Unit)!.Value;
        return c.Judge(number.Unit != "mm[Hg]" && Math.Abs(depth - c.Limit) <= 0.5m ? c.Limit : depth, number.Comparator);
    });

    // The ceilings of the two rule sets, one reached, one exceeded; with intracranial pressure monitored 120 holds where it is stricter.
    private static List<Criterion> Criteria(Checks checks, IReadOnlyList<string> bands, DateTimeOffset at)
    {
        var criteria = bands.Select(band => checks.Strict
            ? new Criterion(false, band switch { ReferenceAge.Neonate => 80m, ReferenceAge.Infant => 100m, ReferenceAge.Child => 120m, _ => 150m })
            : new Criterion(true, band == ReferenceAge.Adult ? 200m : 120m)).ToList();
        if (criteria.Count > 0 && checks.Known.Holds("intracranial-pressure-monitored", at))
        {
            criteria.Add(new(false, 120m));
        }

        return criteria;
    }

    // "Doubtful unit: missing without row default; not a unit of pressure among …; magnitude under 20 mm[Hg] (not 0) or over 760
    // after conversion; or another unit than the same row's previous reading where the number read in the earlier unit, but not as
    // written, lies in 40 to 700 mm[Hg]"
    private static bool IsDoubtful(KnownCharting known, Item vacuum)
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
    private static string? ModeAt(List<Setting> line, DateTimeOffset at)
    {
        var latest = line.LastOrDefault(s => s.Modes.Count > 0 && s.At <= at && at - s.At <= TimeSpan.FromHours(12));
        return latest is null ? null : latest.Modes.Any(m => m.Answer == "full-line") ? "full-line" : latest.Modes[0].Answer;
    }

    // A component of the reading, or a row of its instant.
    private static string? Method(KnownCharting known, Item vacuum) => Beside(known, vacuum, "vacuum-reading-method");

    // Said of the reading, the mode or the Device; where nobody says, a row charted on a patient counts as airway.
    private static string Use(Checks checks, Item item) =>
        Beside(checks.Known, item, "suction-use") ?? RegulatorOf(checks, item)?.Use ?? "airway";

    private static string? Beside(KnownCharting known, Item item, string concept) =>
        known.Of(concept).FirstOrDefault(i => i.Row == item.Row)?.Answer
        ?? known.Of(concept).FirstOrDefault(i => i.At == item.At && i.Row.Concept == concept && i.Row.Device == item.Row.Device)?.Answer;

    // The regulator that the row, or the pass it belongs to, names; else the patient's episode.
    private static string Line(Checks checks, Item item) => RegulatorOf(checks, item)?.Reference ?? checks.EpisodeLine(item.At);

    private static Thing? RegulatorOf(Checks checks, Item item) =>
        Regulator(checks.Known, item.Row.Device)
            ?? checks.Passes.Of(item.Row)?.Act?.Used.Select(id => Regulator(checks.Known, "Device/" + id)).FirstOrDefault(t => t is not null);

    private static Thing? Regulator(KnownCharting known, string? device)
    {
        var id = device is null ? null
            : known.History.Metrics.FirstOrDefault(m => m.Reference == device)?.Thing
            ?? known.History.Things.FirstOrDefault(t => t.Reference == device)?.Id;
        return id is not null && known.Thing(id) is { Kind: "vacuum-regulator" } regulator ? regulator : null;
    }

    private static bool IsVacuum(Item item) => item.Concept is "vacuum-pressure" or "vacuum-set";

    // A set value is also a pressure whose metric is of category setting.
    private static bool IsSetValue(KnownCharting known, Item item) =>
        item.Concept == "vacuum-set" || known.History.Metrics.Any(m => m.Reference == item.Row.Device && m.Category == "setting");
}
