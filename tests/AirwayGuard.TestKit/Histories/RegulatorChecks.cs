namespace AirwayGuard.TestKit.Histories;

/// <summary>vacuum-not-checked-before-pass over passes, standing on the episode, and regulator-calibration-overdue, on the regulator.</summary>
internal static class RegulatorChecks
{
    private const string Unchecked = "vacuum-not-checked-before-pass", Overdue = "regulator-calibration-overdue";

    public static void Judge(Checks checks)
    {
        foreach (var line in checks.Passes.All.GroupBy(p => checks.EpisodeLine(p.Start), StringComparer.Ordinal))
        {
            // A later pass with a check ends it. A reading whose unit is doubtful leaves it open.
            var said = line.Select(p => (p.Start, Pass: p, IsWaited: checks.HasWaited(p.Over(checks.Known)), Checked: IsChecked(checks, p))).ToList();
            foreach (var open in said.Where(p => p.IsWaited && p.Checked is null))
            {
                checks.Out.CannotTell(Unchecked, line.Key, open.Start);
            }

            var missing = said.Where(p => p.IsWaited && p.Checked == false)
                .Select(p => new Occurrence(Unchecked, line.Key, p.Start, [p.Pass.Anchor], "moderate", checks.Band(p.Start)));
            var done = said.Where(p => p.Checked == true).Select(p => (p.Start, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true)));
            checks.Out.Line(missing, done, since => checks.HasEnded(line.Key, since));
        }

        JudgeCalibrations(checks);
    }

    // Null where nobody can tell.
    private static bool? IsChecked(Checks checks, Pass pass)
    {
        var regulator = Named(checks, pass);
        // Where row or pass names none, it is the one in use.
        bool IsInUse(Item i) => Settings.Use(checks, i) == "airway" && (regulator is null || Settings.RegulatorOf(checks, i) is not { } named || named == regulator);
        // A gauge that shows 0, or of a regulator that is off, shows no vacuum.
        bool IsOff(Item i) => Settings.ModeAt([.. checks.Settings.Where(s => s.Line == Settings.Line(checks, i))], i.At) == "off";
        var readings = checks.Known.Of("vacuum-pressure").Where(i => i.Number is { Amount: not 0 } && !IsOff(i) && !Settings.IsSetValue(checks.Known, i)
            && Settings.Method(checks.Known, i) is null or "occluded" && IsInUse(i)).ToList();
        var before = readings.Where(i => pass.Rows.Contains(i.Row)
            || (i.At <= pass.Start && pass.Start - i.At <= TimeSpan.FromMinutes(15) && !(i.At < LatestChange(checks, pass.Start, IsInUse)))).ToList();
        return before.Exists(i => !Settings.IsDoubtful(checks.Known, i)) ? true : before.Count > 0 ? null : false;
    }

    // A set value or mode other than the one charted before it.
    private static DateTimeOffset? LatestChange(Checks checks, DateTimeOffset before, Func<Item, bool> isInUse)
    {
        DateTimeOffset? latest = null;
        foreach (var kind in new Func<Item, bool>[] { i => i.Concept == "regulator-mode" && i.Answer is not null, i => Settings.IsVacuum(i) && i.Number is not null && Settings.IsSetValue(checks.Known, i) })
        {
            var rows = checks.Known.Items.Where(i => i.At <= before && kind(i) && isInUse(i)).ToList();
            for (var n = 1; n < rows.Count; n++)
            {
                if (rows[n].Answer != rows[n - 1].Answer || !IsSame(rows[n].Number, rows[n - 1].Number))
                {
                    latest = latest > rows[n].At ? latest : rows[n].At;
                }
            }
        }

        return latest;
    }

    // A vacuum is one depth in either sign, and in another unit within 0.5 mm[Hg].
    private static bool IsSame(ReferenceNumber? one, ReferenceNumber? other) =>
        one?.Unit is { } unit && other?.Unit is { } another && unit != another && ReferenceNumber.Pressures.ContainsKey(unit) && ReferenceNumber.Pressures.ContainsKey(another)
            ? Math.Abs(one.MmHgIn(unit)!.Value - other.MmHgIn(another)!.Value) <= 0.5m
            : one?.Unit == other?.Unit && Depth(one) == Depth(other);

    private static decimal? Depth(ReferenceNumber? number) => number is null ? null : Math.Abs(number.Amount);

    private static Thing? Named(Checks checks, Pass pass) =>
        (pass.Act?.Used ?? []).Select(id => Settings.Regulator(checks.Known, "Device/" + id)).FirstOrDefault(t => t is not null)
        ?? pass.Rows.Select(r => Settings.Regulator(checks.Known, r.Device)).FirstOrDefault(t => t is not null);

    // Of the regulators in airway use; due when twelve calendar months have run since the latest calibration.
    private static void JudgeCalibrations(Checks checks)
    {
        var used = checks.Settings.SelectMany(s => s.Vacuums.Concat(s.Modes)).Select(i => (i.At, Regulator: Settings.RegulatorOf(checks, i)))
            .Concat(checks.Passes.All.Select(p => (At: p.Start, Regulator: Named(checks, p))))
            .Where(u => u.Regulator is { Use: null or "airway" }).GroupBy(u => u.Regulator!.Reference, StringComparer.Ordinal).ToList();
        foreach (var regulator in used)
        {
            JudgeCalibration(checks, regulator.Key, regulator.Min(u => u.At), isNobodys: false);
        }

        // One that is marked as serving airways is judged also where no patient's charting names it.
        foreach (var alone in checks.Known.History.Things.Where(t => t is { Kind: "vacuum-regulator", Use: "airway" } && used.TrueForAll(u => u.Key != t.Reference)))
        {
            JudgeCalibration(checks, alone.Reference, null, isNobodys: true);
        }
    }

    private static void JudgeCalibration(Checks checks, string regulator, DateTimeOffset? firstUse, bool isNobodys)
    {
        var charted = checks.Known.Elsewhere.Where(i => i.Row.About == regulator && i.Concept == "calibrated-on").Select(i => (i.Value as Charted.Moment)?.Time);
        var own = checks.Known.History.Metrics.Where(m => "Device/" + m.Thing == regulator).Select(m => m.Calibrated);
        var dates = charted.Concat(own).OfType<DateTimeOffset>().Where(d => d <= checks.Known.Now).Distinct().Order().ToList();
        if (dates.Count == 0 && firstUse is { } first)
        {
            checks.Out.CannotTell(Overdue, regulator, first);
        }

        var due = dates.Select((d, n) => (Due: d.AddMonths(12), Next: n + 1 < dates.Count ? dates[n + 1] : (DateTimeOffset?)null))
            .Where(d => d.Due < checks.Known.Now && !(d.Next <= d.Due))
            .Select(d => new Occurrence(Overdue, regulator, d.Due, [], "low", isNobodys ? ReferenceAge.Unknown : checks.Band(d.Due))
            {
                Value = 12m,
                Unit = "mo",
                OfNobody = isNobodys,
            });
        checks.Out.Line(due, dates.Select(d => (d, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true))), since => !isNobodys && checks.HasEnded(regulator, since));
    }
}
