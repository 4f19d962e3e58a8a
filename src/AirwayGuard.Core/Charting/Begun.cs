namespace AirwayGuard.Core.Charting;

/// <summary>
/// What has begun at the time judged. A row dated later, by a clock that runs ahead or a slip of the pen, has not happened yet: until then
/// it neither breaches nor clears, and it hides nothing that was charted of now.
/// </summary>
public static class Begun
{
    /// <param name="asOf">The time judged at, UTC ticks.</param>
    /// <param name="next">When the next of what was left out begins; <see cref="long.MaxValue"/> where nothing was.</param>
    /// <returns>The same timeline where nothing lies ahead; else a copy without it.</returns>
    public static Timeline At(in Timeline timeline, long asOf, out long next)
    {
        next = long.MaxValue;
        foreach (ref readonly var fact in timeline.Facts)
        {
            next = IsAhead(fact, asOf) ? Math.Min(next, fact.EffectiveFrom) : next;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            next = link.FromTime > asOf ? Math.Min(next, link.FromTime) : next;
        }

        return next == long.MaxValue ? timeline : Without(timeline, asOf);
    }

    private static Timeline Without(in Timeline timeline, long asOf)
    {
        var (facts, links, later) = (new List<Fact>(), new List<Link>(), new HashSet<Entity>());
        foreach (ref readonly var fact in timeline.Facts)
        {
            if (!IsAhead(fact, asOf))
            {
                facts.Add(fact);
            }
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.DoneTo && link.FromTime > asOf)
            {
                later.Add(link.From);
            }
        }

        // What was not yet done used nothing, though what an act used carries no time of its own.
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.FromTime <= asOf && !later.Contains(link.From))
            {
                links.Add(link);
            }
        }

        Fact[] sorted = [.. facts];
        var start = FactOrder.SortAndIndex(sorted);
        return new(timeline.Patient, sorted, start, links.ToArray(), timeline.AsKnownAt);
    }

    private static bool IsAhead(in Fact fact, long asOf) => fact.EffectiveFrom > asOf && !fact.Has(FactMarks.Timeless);
}
