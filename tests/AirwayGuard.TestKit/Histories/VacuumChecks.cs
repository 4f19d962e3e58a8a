namespace AirwayGuard.TestKit.Histories;

/// <summary>vacuum-above-ceiling, regulator-on-full-line and vacuum-unit-doubtful over settings.</summary>
internal static class VacuumChecks
{
    private const string Ceiling = "vacuum-above-ceiling", FullLine = "regulator-on-full-line", Doubtful = "vacuum-unit-doubtful";

    /// <summary>Judges all settings and returns how many there are.</summary>
    public static int Judge(Checks checks)
    {
        var settings = checks.Settings;
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
            var mode = Settings.ModeAt(settings, setting.At);
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
                    WithoutMethod = breaching.All(v => Settings.Method(checks.Known, v) is null),
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
                var readings = judged.Where(j => j.Outcome == Outcome.Pass && (checks.Choices.SetValueClears || !Settings.IsSetValue(checks.Known, j.Vacuum))).ToList();
                var occluded = readings.Exists(j => Settings.Method(checks.Known, j.Vacuum) == "occluded");
                clearing.Add((setting.At, spell => readings.Count > 0 && (occluded || spell.All(o => o.WithoutMethod))));
            }

            JudgeDoubt(checks, setting, mode, band);
        }

        checks.Out.Line(over, clearing, since => checks.HasEnded(line, since));
        JudgeMode(checks, FullLine, "full-line", "high", line, settings);
        JudgeMode(checks, "regulator-intermittent", "intermittent", "moderate", line, settings);
    }

    // A mode, until another one is charted; a check judges a row once.
    private static void JudgeMode(Checks checks, string check, string mode, string severity, string line, List<Setting> settings)
    {
        var on = settings.Where(s => s.Modes.Any(m => m.Answer == mode))
            .Select(s => new Occurrence(check, line, s.At, Setting.About(s.Modes.Where(m => m.Answer == mode).Take(1)), severity, checks.Band(s.At)) { Code = mode });
        var off = settings.Where(s => s.Modes.Count > 0 && s.Modes.All(m => m.Answer != mode))
            .Select(s => (s.At, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true)));
        checks.Out.Line(on, off, since => checks.HasEnded(line, since));
    }

    private static void JudgeDoubt(Checks checks, Setting setting, string? mode, string band)
    {
        // "0: off, not judged; full-line, only that check"
        var doubtful = setting.Vacuums.FirstOrDefault(v => Settings.IsDoubtful(checks.Known, v) && !(v.Number!.Amount == 0 && mode is ("off" or "full-line")));
        if (doubtful is not null)
        {
            checks.Out.Single(new(Doubtful, setting.Line, setting.At, [doubtful.Row.Reference], "moderate", band)
            {
                Value = doubtful.Number!.Amount,
                Unit = doubtful.Number.Unit,
            });
        }
    }

    private static Outcome JudgeVacuum(Checks checks, Item vacuum, string? mode) => checks.CompareTight(
        vacuum.At, band => CeilingOf(checks, band), Monitored(checks, vacuum.At), (hasAge, criteria) => Judge(checks, vacuum, mode, hasAge, criteria));

    /// <summary>Compares a vacuum with ceilings.</summary>
    /// <param name="hasAge">Whether there is an age to take ceilings for.</param>
    public static Outcome Judge(Checks checks, Item vacuum, string? mode, bool hasAge, IReadOnlyList<Criterion> criteria)
    {
        var number = vacuum.Number!;
        if (number.Amount == 0 && mode is (null or "off" or "full-line"))
        {
            // "0: off, not judged; full-line, only that check; no mode, cannot-tell."
            return mode is null ? Outcome.CannotTell : Outcome.None;
        }

        if (Settings.IsDoubtful(checks.Known, vacuum))
        {
            // "Then vacuum-above-ceiling is cannot-tell, except that a missing unit breaches when the number is over the ceiling in
            // every listed unit in which it is possible (760 mm[Hg] or less) at all"
            return hasAge && Settings.IsOverInEveryUnit(number, criteria) ? Outcome.Breach : Outcome.CannotTell;
        }

        var outcome = !hasAge ? Outcome.CannotTell : Settings.Compare(criteria, number);
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
        return Settings.Method(checks.Known, vacuum) is "flowing" or "unknown" ? Outcome.CannotTell : Outcome.Pass;
    }

    // The ceilings of the two rule sets, one reached, one exceeded.
    internal static Criterion CeilingOf(Checks checks, string band) => checks.Strict
        ? new Criterion(false, band switch { ReferenceAge.Neonate => 80m, ReferenceAge.Infant => 100m, ReferenceAge.Child => 120m, _ => 150m })
        : new Criterion(true, band == ReferenceAge.Adult ? 200m : 120m);

    /// <summary>Of an order also once monitoring has begun: it is judged again when what it rests on changes.</summary>
    internal static Criterion? MonitoredSince(Checks checks, DateTimeOffset written) =>
        Monitored(checks, written) ?? (checks.Known.Of("intracranial-pressure-monitored").Any(item => item.YesNo == true && item.At > written) ? new Criterion(false, 120m) : null);

    /// <summary>With intracranial pressure monitored 120 holds at any age, where it is stricter.</summary>
    internal static Criterion? Monitored(Checks checks, DateTimeOffset at) =>
        checks.Known.Holds("intracranial-pressure-monitored", at) ? new Criterion(false, 120m) : null;
}
