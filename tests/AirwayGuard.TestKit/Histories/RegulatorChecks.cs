namespace AirwayGuard.TestKit.Histories;

/// <summary>vacuum-not-checked-before-pass over passes, standing on the episode, and regulator-calibration-overdue, on the regulator.</summary>
internal static class RegulatorChecks
{
    private const string Unchecked = "vacuum-not-checked-before-pass", Overdue = "regulator-calibration-overdue";

    public static void Judge(Checks checks)
    {
        foreach (var line in checks.Passes.All.GroupBy(p => checks.EpisodeLine(p.Start), StringComparer.Ordinal))
        {
            // A later pass with a check ends it.
            var missing = line.Where(p => checks.HasWaited(p.Over(checks.Known)) && !IsChecked(checks, p))
                .Select(p => new Occurrence(Unchecked, line.Key, p.Start, [p.Anchor], "moderate", checks.Band(p.Start)));
            var done = line.Where(p => IsChecked(checks, p)).Select(p => (p.Start, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true)));
            checks.Out.Line(missing, done, since => checks.HasEnded(line.Key, since));
        }

        JudgeCalibrations(checks);
    }

    private static bool IsChecked(Checks checks, Pass pass)
    {
        var regulator = Named(checks, pass);
        // Without a regulator named, the one in use is the episode's.
        bool IsInUse(Item i) => Settings.Use(checks, i) == "airway" && (regulator is null || Settings.RegulatorOf(checks, i) == regulator);
        var readings = checks.Known.Of("vacuum-pressure").Where(i => i.Number is not null && !Settings.IsSetValue(checks.Known, i)
            && Settings.Method(checks.Known, i) is null or "occluded" && IsInUse(i)).ToList();
        return readings.Exists(i => pass.Rows.Contains(i.Row))
            || readings.Exists(i => i.At <= pass.Start && pass.Start - i.At <= TimeSpan.FromMinutes(15) && !(i.At < LatestChange(checks, pass.Start, IsInUse)));
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
                if (rows[n].Answer != rows[n - 1].Answer || rows[n].Number != rows[n - 1].Number)
                {
                    latest = latest > rows[n].At ? latest : rows[n].At;
                }
            }
        }

        return latest;
    }

    private static Thing? Named(Checks checks, Pass pass) =>
        (pass.Act?.Used ?? []).Select(id => Settings.Regulator(checks.Known, "Device/" + id)).FirstOrDefault(t => t is not null)
        ?? pass.Rows.Select(r => Settings.Regulator(checks.Known, r.Device)).FirstOrDefault(t => t is not null);

    // Of the regulators that the patient's rows and passes name; due when twelve calendar months have run since the latest calibration.
    private static void JudgeCalibrations(Checks checks)
    {
        var used = checks.Known.Rows.Select(r => (r.At, Regulator: Settings.Regulator(checks.Known, r.Device)))
            .Concat(checks.Passes.All.Select(p => (At: p.Start, Regulator: Named(checks, p))))
            .Where(u => u.Regulator is not null).GroupBy(u => u.Regulator!.Reference, StringComparer.Ordinal);
        foreach (var regulator in used)
        {
            var charted = checks.Known.Elsewhere.Where(i => i.Row.About == regulator.Key && i.Concept == "calibrated-on").Select(i => (i.Value as Charted.Moment)?.Time);
            var own = checks.Known.History.Metrics.Where(m => "Device/" + m.Thing == regulator.Key).Select(m => m.Calibrated);
            var dates = charted.Concat(own).OfType<DateTimeOffset>().Where(d => d <= checks.Known.Now).Distinct().Order().ToList();
            if (dates.Count == 0)
            {
                checks.Out.CannotTell(Overdue, regulator.Key, regulator.Min(u => u.At));
                continue;
            }

            var due = dates.Select((d, n) => (Due: d.AddMonths(12), Next: n + 1 < dates.Count ? dates[n + 1] : (DateTimeOffset?)null))
                .Where(d => d.Due < checks.Known.Now && !(d.Next <= d.Due))
                .Select(d => new Occurrence(Overdue, regulator.Key, d.Due, [], "low", checks.Band(d.Due)) { Value = 12m, Unit = "mo" });
            checks.Out.Line(due, dates.Select(d => (d, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true))), since => checks.HasEnded(regulator.Key, since));
        }
    }
}
