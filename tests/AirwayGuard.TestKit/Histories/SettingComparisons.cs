namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// vacuum-below-useful, vacuum-read-unoccluded, set-and-charted-vacuum-differ and bleeding-risk-with-high-vacuum over settings; none
/// stands, so what cannot be told counts for the episode.
/// </summary>
internal static class SettingComparisons
{
    public static void Judge(Checks checks)
    {
        foreach (var line in checks.Settings.GroupBy(s => s.Line, StringComparer.Ordinal))
        {
            var settings = line.ToList();
            foreach (var setting in settings)
            {
                var mode = Settings.ModeAt(settings, setting.At);
                JudgeUseful(checks, setting, mode);
                JudgeUnoccluded(checks, setting, mode);
                JudgeDifference(checks, setting, settings, mode);
                JudgeBleedingRisk(checks, setting, mode);
            }
        }
    }

    // Below 60, of a neonate below 40; a doubtful unit is not judged. By the words the method makes no difference here.
    private static void JudgeUseful(Checks checks, Setting setting, string? mode)
    {
        var judged = setting.Vacuums.Select(v => (Vacuum: v, Outcome: Useful(checks, v, mode))).ToList();
        Tell(checks, "vacuum-below-useful", "low", setting, judged, lowest: true);
    }

    private static Outcome Useful(Checks checks, Item vacuum, string? mode)
    {
        if (Settings.IsDoubtful(checks.Known, vacuum) || mode == "full-line" || (vacuum.Number!.Amount == 0 && mode == "off"))
        {
            return Outcome.None;
        }

        return vacuum.Number.Amount == 0 && mode is null ? Outcome.CannotTell
            : checks.Compare(vacuum.At, b => new Criterion(false, b == ReferenceAge.Neonate ? 40m : 60m, Floor: true), c => Settings.Compare([c], vacuum.Number));
    }

    // Judges readings, which set values are not: taken while flowing, or unknown how.
    // "0: off, not judged; full-line, only that check; no mode, cannot-tell."
    private static void JudgeUnoccluded(Checks checks, Setting setting, string? mode)
    {
        const string check = "vacuum-read-unoccluded";
        var methods = setting.Vacuums.Where(v => !Settings.IsSetValue(checks.Known, v) && !(v.Number!.Amount == 0 && mode is "off" or "full-line"))
            .Select(v => (Vacuum: v, Method: v.Number!.Amount == 0 && mode is null ? null : Settings.Method(checks.Known, v))).ToList();
        var flowing = methods.Find(m => m.Method == "flowing").Vacuum;
        if (flowing is not null)
        {
            checks.Out.Single(new(check, setting.Line, setting.At, [flowing.Row.Reference], "low", checks.Band(setting.At)) { Code = "flowing" });
        }
        else if (methods.Exists(m => m.Method != "occluded"))
        {
            checks.Out.CannotTell(check, checks.EpisodeLine(setting.At), setting.At);
        }
    }

    // A reading beside the set value that holds on its line, at most 12 h; without a set value nothing is compared.
    private static void JudgeDifference(Checks checks, Setting setting, List<Setting> line, string? mode)
    {
        var set = line.Where(s => s.At <= setting.At && setting.At - s.At <= TimeSpan.FromHours(12))
            .SelectMany(s => s.Vacuums).LastOrDefault(v => Settings.IsSetValue(checks.Known, v));
        if (set is null)
        {
            return;
        }

        var judged = setting.Vacuums.Where(v => !Settings.IsSetValue(checks.Known, v)).Select(v => (Vacuum: v, Outcome: Differs(checks, v, set, mode))).ToList();
        var worst = judged.Select(j => j.Outcome).DefaultIfEmpty(Outcome.None).Max();
        if (worst == Outcome.Breach)
        {
            var furthest = judged.Where(j => j.Outcome == Outcome.Breach).MaxBy(j => Difference(j.Vacuum, set)).Vacuum;
            checks.Out.Single(new("set-and-charted-vacuum-differ", setting.Line, setting.At, [furthest.Row.Reference], "moderate", checks.Band(setting.At))
            {
                Value = Difference(furthest, set),
                Unit = "mm[Hg]",
            });
        }
        else if (worst == Outcome.CannotTell)
        {
            checks.Out.CannotTell("set-and-charted-vacuum-differ", checks.EpisodeLine(setting.At), setting.At);
        }
    }

    private static Outcome Differs(Checks checks, Item reading, Item set, string? mode)
    {
        // Full line goes past the regulator, and a zero with it off says nothing of its set value.
        if (mode == "full-line" || (reading.Number!.Amount == 0 && mode == "off"))
        {
            return Outcome.None;
        }

        var isOpen = set.Number!.Comparator is not null || (reading.Number!.Amount == 0 && mode is null);
        if (isOpen || Settings.IsDoubtful(checks.Known, reading) || Settings.IsDoubtful(checks.Known, set))
        {
            return Outcome.CannotTell;
        }

        var difference = Difference(reading, set);
        var converted = reading.Number!.Unit != "mm[Hg]" || set.Number.Unit != "mm[Hg]";
        var isWeaker = Depth(reading) < Depth(set);
        // A bound on the side away from the set value says that they differ by at least so much; on the other it leaves all open.
        var bound = reading.Number.Comparator switch
        {
            null => null,
            "<" or ">" => ">",
            _ => ">=",
        };
        return bound is not null && difference != 0m && isWeaker != (reading.Number.Comparator is "<" or "<=") ? Outcome.CannotTell
            : new Criterion(false, 20m).Judge(converted && Math.Abs(difference - 20m) <= 0.5m ? 20m : difference, bound);
    }

    private static decimal Difference(Item reading, Item set) => Math.Abs(Depth(reading) - Depth(set));

    // Adults with a bleeding risk: above 150 of one rule set, above 120 of the other.
    private static void JudgeBleedingRisk(Checks checks, Setting setting, string? mode)
    {
        if (!checks.Known.Holds("bleeding-risk", setting.At))
        {
            return;
        }

        var limit = checks.Strict ? 120m : 150m;
        var judged = setting.Vacuums.Select(v => (Vacuum: v, Outcome: checks.Compare(
            v.At, b => b == ReferenceAge.Adult ? new Criterion(false, limit) : null, c => VacuumChecks.Judge(checks, v, mode, hasAge: true, [c])))).ToList();
        // On full line it is told already, as over the ceiling.
        Tell(checks, "bleeding-risk-with-high-vacuum", "moderate", setting, judged, lowest: false, mode == "full-line" ? "regulator-on-full-line" : null);
    }

    private static void Tell(
        Checks checks, string check, string severity, Setting setting, List<(Item Vacuum, Outcome Outcome)> judged, bool lowest, string? withheldBy = null)
    {
        var worst = judged.Select(j => j.Outcome).DefaultIfEmpty(Outcome.None).Max();
        if (worst == Outcome.CannotTell)
        {
            checks.Out.CannotTell(check, checks.EpisodeLine(setting.At), setting.At);
        }
        else if (worst == Outcome.Breach)
        {
            var breaching = judged.Where(j => j.Outcome == Outcome.Breach).Select(j => j.Vacuum).OrderBy(Depth).ToList();
            var shown = lowest ? breaching[0] : breaching[^1];
            checks.Out.Single(new(check, setting.Line, setting.At, [shown.Row.Reference], severity, checks.Band(setting.At))
            {
                Value = Depth(shown),
                Unit = shown.Number!.Unit is null ? null : "mm[Hg]",
                WithheldBy = withheldBy,
            });
        }
    }

    private static decimal Depth(Item vacuum) => vacuum.Number!.MmHgIn(vacuum.Number.Unit) ?? Math.Abs(vacuum.Number.Amount);
}
