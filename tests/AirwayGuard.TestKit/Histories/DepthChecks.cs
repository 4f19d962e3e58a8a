namespace AirwayGuard.TestKit.Histories;

/// <summary>inserted-too-deep and deep-technique-without-reason over passes and orders.</summary>
internal static class DepthChecks
{
    private const string TooDeep = "inserted-too-deep", Deep = "deep-technique-without-reason";

    public static void Judge(Checks checks)
    {
        foreach (var pass in checks.Passes.All)
        {
            if (pass.Of(checks.Known, "insertion-depth").Max(i => Centimetres(i.Number)) is { } depth)
            {
                var (outcome, beyond) = Compare(checks, checks.Airways.InUse(pass.Start), depth, pass.Start);
                checks.Tell(TooDeep, pass, outcome, "moderate", beyond, "cm");
            }

            // Of both charted with one pass deep counts.
            if (checks.WithPass(pass, "depth-technique", i => i.Answer is "shallow" or "deep")?.Answer is { } technique)
            {
                var isDeep = technique == "deep" || pass.Of(checks.Known, "depth-technique").Any(i => i.Answer == "deep");
                Tell(checks, pass, WithoutReason(checks, pass.Start, isDeep && !Reasons.Allow(checks, pass)));
            }
        }

        foreach (var order in OrderChecks.Judged(checks))
        {
            if (order.Depth is Charted.Number number && Centimetres(ReferenceNumber.Read(number)) is { } depth)
            {
                JudgeDepth(checks, order, depth);
            }

            if (order.Depth is Charted.Answer { Code: "deep" or "shallow" } technique)
            {
                Tell(checks, order, WithoutReason(checks, order.Authored, technique.Code == "deep" && !Reasons.Counts(order.Reason)));
            }
        }
    }

    // Against the airway in use now; where it is within there, what was found against the latest one before was found, and ended with that.
    private static void JudgeDepth(Checks checks, SuctionOrder order, decimal depth)
    {
        var since = checks.Airways.Since(order.Authored);
        var (outcome, beyond) = Compare(checks, since.Count > 0 ? since[^1] : null, depth, order.Authored);
        checks.Tell(TooDeep, order, outcome, "moderate", beyond, "cm");
        var before = since.SkipLast(1).Select(airway => Compare(checks, airway, depth, order.Authored)).LastOrDefault(compared => compared.Outcome == Outcome.Breach);
        if (outcome != Outcome.Breach && before.Outcome == Outcome.Breach)
        {
            checks.Out.Single(
                new(TooDeep, order.Reference, order.Authored, [order.Reference], "moderate", checks.Band(order.Authored)) { Value = before.Beyond, Unit = "cm" }, cleared: true);
        }
    }

    public static decimal? Centimetres(ReferenceNumber? number) => number switch
    {
        { Unit: "cm" } n => n.Amount,
        { Unit: "mm" } n => n.Amount / 10m,
        _ => null,
    };

    // Beyond tube and adapter: of neonates and infants not at all, of children half a centimetre, of adults one. Without the adapter's
    // length, what is within the limit beyond the tube alone passes.
    private static (Outcome Outcome, decimal? Beyond) Compare(Checks checks, AirwaySpan? airway, decimal depth, DateTimeOffset at)
    {
        // An order that is older than its airway goes by what is on file when that begins.
        decimal? Length(string concept) => airway is null ? null
            : checks.Known.Of(concept).Where(i => i.At >= airway.Start && i.At <= (airway.Start > at ? airway.Start : at)).Select(i => Centimetres(i.Number)).LastOrDefault(l => l is not null);
        var beyondTube = depth - Length("tube-length");
        var beyond = beyondTube - Length("adapter-length");
        Criterion Limit(string band) => new(false, band switch { ReferenceAge.Child => 0.5m, ReferenceAge.Adult => 1m, _ => 0m });
        return (checks.Compare(at, Limit, c => beyond is { } b ? c.Judge(b, null)
            : beyondTube is { } t && c.Judge(t, null) == Outcome.Pass ? Outcome.Pass : Outcome.CannotTell), beyond);
    }

    // Of all but adults; without an age nobody can tell.
    private static Outcome WithoutReason(Checks checks, DateTimeOffset at, bool found) =>
        checks.Compare(at, b => b == ReferenceAge.Adult ? null : new Criterion(true, 0m), _ => found ? Outcome.Breach : Outcome.Pass);

    private static void Tell(Checks checks, Pass pass, Outcome outcome)
    {
        if (outcome == Outcome.Breach)
        {
            checks.Out.Single(
                new(Deep, checks.EpisodeLine(pass.Start), pass.Start, [pass.Anchor], "low", checks.Band(pass.Start)) { Code = "deep" }, Reasons.Later(checks, pass));
        }
        else
        {
            checks.Tell(Deep, pass, outcome, "low");
        }
    }

    private static void Tell(Checks checks, SuctionOrder order, Outcome outcome)
    {
        if (outcome == Outcome.Breach)
        {
            checks.Out.Single(
                new(Deep, order.Reference, order.Authored, [order.Reference], "low", checks.Band(order.Authored)) { Code = "deep" }, Reasons.Later(checks, order));
        }
        else
        {
            checks.Tell(Deep, order, outcome, "low");
        }
    }
}
