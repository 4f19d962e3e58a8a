namespace AirwayGuard.TestKit.Histories;

/// <summary>wall-supply-low over full-line readings of outlets; it stands on the outlet, which is no patient's.</summary>
internal static class OutletChecks
{
    private const string Check = "wall-supply-low";

    public static void Judge(Checks checks)
    {
        var rows = checks.Known.Elsewhere.Where(i => i.Concept == "full-line-vacuum" && i.Number is not null && IsOutlet(checks, i.Row.About!));
        foreach (var outlet in rows.GroupBy(i => i.Row.About!, StringComparer.Ordinal))
        {
            var found = new List<Occurrence>();
            var enough = new List<(DateTimeOffset, Func<IReadOnlyList<Occurrence>, bool>)>();
            foreach (var item in outlet)
            {
                // Of a doubtful unit, as of any vacuum, nobody can tell.
                var depth = item.Number!.MmHgIn(item.Number.Unit);
                var outcome = depth is null or (> 0m and < 20m) or > 760m ? Outcome.CannotTell : Settings.Compare([new Criterion(false, 300m, Floor: true)], item.Number);
                if (outcome == Outcome.Breach)
                {
                    found.Add(new(Check, outlet.Key, item.At, [item.Row.Reference], "moderate", ReferenceAge.Unknown) { Value = depth, Unit = "mm[Hg]", OfNobody = true });
                }
                else if (outcome == Outcome.Pass)
                {
                    enough.Add((item.At, _ => true));
                }
                else
                {
                    checks.Out.CannotTell(Check, outlet.Key, item.At, ofNobody: true);
                }
            }

            checks.Out.Line(found, enough, _ => false);
        }
    }

    private static bool IsOutlet(Checks checks, string about) =>
        about.StartsWith("Location/", StringComparison.Ordinal) || checks.Known.History.Things.Any(t => t.Reference == about && t.Kind == "wall-vacuum-outlet");
}
