namespace AirwayGuard.TestKit.Histories;

/// <summary>saline-without-reason and saline-dose-high over passes and orders.</summary>
internal static class SalineChecks
{
    private const string WithoutReason = "saline-without-reason", DoseHigh = "saline-dose-high";

    public static void Judge(Checks checks)
    {
        foreach (var pass in checks.Passes.All)
        {
            var given = pass.Of(checks.Known, "saline-instilled").Select(i => i.Value).Where(IsGiven).ToList();
            if (given.Count == 0)
            {
                continue;
            }

            var volume = given.Max(Millilitres);
            if (!Reasons.Allow(checks, pass))
            {
                checks.Out.Single(
                    Shown(new(WithoutReason, checks.EpisodeLine(pass.Start), pass.Start, [pass.Anchor], "moderate", checks.Band(pass.Start)), volume),
                    Reasons.Later(checks, pass));
            }

            var (outcome, dose) = Dose(checks, volume, pass.Start);
            checks.Tell(DoseHigh, pass, outcome, "moderate", dose, "mL/kg");
        }

        foreach (var order in OrderChecks.Judged(checks))
        {
            if (order.Saline is not { } charted || !IsGiven(charted))
            {
                continue;
            }

            var volume = Millilitres(charted);
            if (!Reasons.Counts(order.Reason))
            {
                checks.Out.Single(
                    Shown(new(WithoutReason, order.Reference, order.Authored, [order.Reference], "moderate", checks.Band(order.Authored)), volume),
                    Reasons.Later(checks, order));
            }

            var (outcome, dose) = Dose(checks, volume, order.Authored);
            checks.Tell(DoseHigh, order, outcome, "moderate", dose, "mL/kg");
        }
    }

    // In mL; charted as given without a volume it is a code.
    private static Occurrence Shown(Occurrence found, decimal? volume) =>
        volume is not null ? found with { Value = volume, Unit = "mL" } : found with { Code = "true" };

    private static bool IsGiven(Charted value) => value is Charted.YesNo { Value: true } || Millilitres(value) > 0;

    private static decimal? Millilitres(Charted value) => ReferenceNumber.Read(value) is { Unit: "mL" } number ? number.Amount : null;

    // Of a neonate, above 0.2 mL for each kilogram; its weight holds 48 h. Without a volume or a weight nobody can tell.
    private static (Outcome Outcome, decimal? Dose) Dose(Checks checks, decimal? volume, DateTimeOffset at)
    {
        var weight = checks.Known.Latest("body-weight", at, TimeSpan.FromHours(48), i => Kilograms(i.Number) > 0, i => -Kilograms(i.Number));
        var dose = volume / Kilograms(weight?.Number);
        return (checks.Compare(at, b => b == ReferenceAge.Neonate ? new Criterion(false, 0.2m) : null, c => dose is { } d ? c.Judge(d, null) : Outcome.CannotTell), dose);
    }

    private static decimal? Kilograms(ReferenceNumber? number) => number switch
    {
        { Unit: "kg" } n => n.Amount,
        { Unit: "g" } n => n.Amount / 1000m,
        _ => null,
    };
}
