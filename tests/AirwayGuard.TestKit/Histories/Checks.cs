namespace AirwayGuard.TestKit.Histories;

/// <summary>What all checks of the reference judge are given.</summary>
internal sealed record Checks(KnownCharting Known, Airways Airways, Passes Passes, bool Strict, UnknownAge UnknownAge, ReferenceChoices Choices, Verdicts Out)
{
    public const string Patientwide = "patient";

    /// <summary>Of a check that does not stand, or without a regulator: the patient's episode, or the patient where there is none.</summary>
    public string EpisodeLine(DateTimeOffset at) => Airways.EpisodeAt(at)?.Line ?? Patientwide;

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

    public static decimal? Seconds(Item item) => item.Number switch
    {
        { Unit: "s" } n => n.Amount,
        { Unit: "min" } n => n.Amount * 60m,
        _ => null,
    };
}
