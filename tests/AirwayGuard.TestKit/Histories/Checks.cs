namespace AirwayGuard.TestKit.Histories;

/// <summary>What all checks of the reference judge are given.</summary>
internal sealed record Checks(KnownCharting Known, Airways Airways, Passes Passes, bool Strict, UnknownAge UnknownAge, ReferenceChoices Choices, Verdicts Out)
{
    private IReadOnlyList<Setting>? _settings;

    public const string Patientwide = "patient";

    public IReadOnlyList<Setting> Settings => _settings ??= Histories.Settings.Of(this);

    /// <summary>Of a check that does not stand, or without a regulator: the patient's episode, or the patient where there is none.</summary>
    public string EpisodeLine(DateTimeOffset at) => Airways.EpisodeAt(at)?.Line ?? Patientwide;

    /// <summary>An order that stands on the episode: that in which it is written, else the next, else the patient.</summary>
    public string OrderLine(DateTimeOffset authored) =>
        (Airways.EpisodeAt(authored) ?? Airways.Episodes.Where(e => e.Start > authored).MinBy(e => e.Start))?.Line ?? Patientwide;

    /// <summary>
    /// The bands whose limits are to be compared: the one band, all possible ones under strictest-band, none where that is
    /// cannot-tell. Without an age it cannot tell either, or takes the strictest band; born after the event, nobody can.
    /// </summary>
    public IReadOnlyList<string> BandsToCompare(DateTimeOffset at)
    {
        var possible = Known.Bands(at);
        return possible.Count == 1 || UnknownAge == UnknownAge.StrictestBand ? possible : [];
    }

    public string Band(DateTimeOffset at) => ReferenceAge.Printed(Known.Bands(at));

    /// <summary>
    /// An episode that has ended clears what stands on it; while a gap may still close (under 1 h at the time of judging), it has not.
    /// </summary>
    public bool HasEnded(string line, DateTimeOffset since) => Choices.EndedLineClears
        && (Airways.Episodes.FirstOrDefault(e => e.Line == line) is { } episode
            ? episode.End is { } end && !(Known.AsOf - end < TimeSpan.FromHours(1))
            // A regulator or the patient: it ends when the patient has left the bed.
            : Known.HasLeft(since));

    /// <summary>
    /// Compares with the limit of the band: one that is the same for all ages needs no age, and a band without a limit is not judged.
    /// Without an age nobody can tell, or all limits of the possible bands are taken, each by itself.
    /// </summary>
    public Outcome Compare(DateTimeOffset at, Func<string, Criterion?> limit, Func<Criterion, Outcome> judge, bool neverStrictest = false)
    {
        var all = ReferenceAge.All.Select(limit).ToList();
        if (all[0] is { } same && all.TrueForAll(c => c == same))
        {
            return judge(same);
        }

        var possible = Known.Bands(at);
        var limits = possible.Select(limit).OfType<Criterion>().Distinct().ToList();
        return possible.Count == 0 ? Outcome.CannotTell
            : limits.Count == 0 ? Outcome.None
            : possible.Count > 1 && (neverStrictest || UnknownAge != UnknownAge.StrictestBand) ? Outcome.CannotTell
            : Criterion.JudgeAll(limits, judge);
    }

    /// <summary>
    /// Compares with the limits of the bands, and with one that a circumstance sets at any age. Without an age that one suffices where it makes the
    /// limits of all possible bands the same, or is breached.
    /// </summary>
    /// <param name="judge">Told whether there is an age to take limits for, and the limits.</param>
    public Outcome CompareTight(DateTimeOffset at, Func<string, Criterion> limit, Criterion? tight, Func<bool, IReadOnlyList<Criterion>, Outcome> judge)
    {
        var bands = BandsToCompare(at);
        if (bands.Count > 0)
        {
            return judge(true, [.. bands.Select(limit), .. (IEnumerable<Criterion>)(tight is null ? [] : [tight])]);
        }

        var possible = Known.Bands(at);
        if (tight is null || possible.Count == 0)
        {
            return judge(false, []);
        }

        var stricter = possible.Select(limit).Select(own => own.Limit != tight.Limit ? (own.Limit < tight.Limit ? own : tight) : own.Inclusive ? own : tight).Distinct().ToList();
        return stricter.Count == 1 ? judge(true, stricter) : judge(true, [tight]) == Outcome.Breach ? Outcome.Breach : judge(false, []);
    }

    /// <summary>A check of a pass that does not stand.</summary>
    public void Tell(string check, Pass pass, Outcome outcome, string severity, decimal? value = null, string? unit = null, string? code = null)
    {
        if (outcome == Outcome.Breach)
        {
            Out.Single(new(check, EpisodeLine(pass.Start), pass.Start, [pass.Anchor], severity, Band(pass.Start)) { Value = value, Unit = unit, Code = code });
        }
        else if (outcome == Outcome.CannotTell)
        {
            Out.CannotTell(check, EpisodeLine(pass.Start), pass.Start);
        }
    }

    /// <summary>A check of an order.</summary>
    public void Tell(string check, SuctionOrder order, Outcome outcome, string severity, decimal? value = null, string? unit = null, string? code = null)
    {
        if (outcome == Outcome.Breach)
        {
            Out.Single(new(check, order.Reference, order.Authored, [order.Reference], severity, Band(order.Authored)) { Value = value, Unit = unit, Code = code });
        }
        else if (outcome == Outcome.CannotTell)
        {
            Out.CannotTell(check, order.Reference, order.Authored);
        }
    }

    /// <summary>What is missing is missing once its wait of two hours after the subject is over; files alone have waited.</summary>
    public bool HasWaited(DateTimeOffset end) => !(Known.AsOf < end + TimeSpan.FromHours(2));

    /// <summary>
    /// Charted with the pass, else with another of its session: with the latest one before it, else with the first one after.
    /// </summary>
    public Item? WithPass(Pass pass, string concept, Func<Item, bool> usable)
    {
        var session = Passes.Sessions.Single(s => s.Contains(pass));
        return session.OrderBy(p => p != pass).ThenBy(p => p.Start > pass.Start).ThenBy(p => (p.Start - pass.Start).Duration())
            .Select(p => p.Of(Known, concept).FirstOrDefault(usable)).FirstOrDefault(i => i is not null);
    }

    public static decimal? Seconds(Item item) => item.Number switch
    {
        { Unit: "s" } n => n.Amount,
        { Unit: "min" } n => n.Amount * 60m,
        _ => null,
    };
}
