namespace AirwayGuard.TestKit.Histories;

/// <summary>One breach of one check by one subject.</summary>
internal sealed record Occurrence(string Check, string Line, DateTimeOffset At, IReadOnlyList<string> About, string Severity, string Band)
{
    public decimal? Value { get; init; }

    public string? Unit { get; init; }

    public string? Code { get; init; }

    public string? WithheldBy { get; init; }

    /// <summary>Of an outlet, which is judged by itself, no patient's.</summary>
    public bool OfNobody { get; init; }

    /// <summary>The time that a clearing fact must be later than, where it is not that of the occurrence.</summary>
    public DateTimeOffset? Until { get; init; }

    /// <summary>Of a vacuum: whether every breaching reading was charted without a method.</summary>
    public bool WithoutMethod { get; init; }
}

/// <summary>Collects verdicts and makes findings of them.</summary>
internal sealed class Verdicts(string patient)
{
    private readonly List<ReportedFinding> _findings = [];
    private readonly List<(string Check, string Line, DateTimeOffset At, bool OfNobody)> _unknown = [];

    public void CannotTell(string check, string line, DateTimeOffset at, bool ofNobody = false) => _unknown.Add((check, line, at, ofNobody));

    /// <summary>A check that does not stand tells each occurrence.</summary>
    public void Single(Occurrence o, bool cleared = false) => Add([o], cleared);

    /// <summary>
    /// A spell, the occurrences of a standing check on one line until a fact clears them: walks the line's
    /// occurrences and clearing facts in time; at one instant the occurrence comes first, since only a later fact clears.
    /// </summary>
    public void Line(IEnumerable<Occurrence> occurrences, IEnumerable<(DateTimeOffset At, Func<IReadOnlyList<Occurrence>, bool> Clears)> clearing, Func<DateTimeOffset, bool> lineEnded)
    {
        var spell = new List<Occurrence>();
        var events = occurrences.Select(o => (o.At, Rank: 0, Occurrence: (Occurrence?)o, Clears: (Func<IReadOnlyList<Occurrence>, bool>?)null))
            .Concat(clearing.Select(c => (c.At, Rank: 1, Occurrence: (Occurrence?)null, Clears: (Func<IReadOnlyList<Occurrence>, bool>?)c.Clears)))
            .OrderBy(e => e.At).ThenBy(e => e.Rank);
        foreach (var (at, _, occurrence, clears) in events)
        {
            if (occurrence is not null)
            {
                spell.Add(occurrence);
            }
            else if (spell.Count > 0 && at > (spell[^1].Until ?? spell[^1].At) && clears!(spell))
            {
                Add(spell, cleared: true);
                spell = [];
            }
        }

        if (spell.Count > 0)
        {
            Add(spell, lineEnded(spell[^1].At));
        }
    }

    public ReferenceReport Report(JudgedCounts judged) => new(
        judged,
        // Findings by time, check and subject.
        [.. _findings.OrderBy(f => f.At).ThenBy(f => f.Check, StringComparer.Ordinal).ThenBy(f => f.About.Count > 0 ? f.About[0] : "", StringComparer.Ordinal)],
        // What cannot be told: once per check and line, an order by itself, with its count.
        [.. _unknown.GroupBy(u => (u.Check, u.Line)).Select(g => new ReportedCannotTell(g.Key.Check, g.First().OfNobody ? null : "Patient/" + patient, g.Min(u => u.At).ToUniversalTime(), g.Count()))
            .OrderBy(c => c.At).ThenBy(c => c.Check, StringComparer.Ordinal)]);

    // From the first occurrence to the latest, of which value, limit and severity are; the value to three places.
    private void Add(List<Occurrence> spell, bool cleared)
    {
        var latest = spell[^1];
        _findings.Add(new(
            latest.Check, "breach", latest.Severity, latest.OfNobody ? null : "Patient/" + patient, [.. spell.SelectMany(o => o.About)],
            spell[0].At.ToUniversalTime(), latest.At.ToUniversalTime(), latest.Band,
            latest.Value is { } value ? Math.Round(value, 3, MidpointRounding.AwayFromZero) : null, latest.Unit, latest.Code, spell.Count,
            // A spell is shown as soon as one of its occurrences is not withheld.
            cleared ? "cleared" : "open", spell.TrueForAll(o => o.WithheldBy is not null) ? latest.WithheldBy : null));
    }
}
