namespace AirwayGuard.Core.Charting;

/// <summary>
/// A patient's facts and those of every entity linked to the patient, as known at one position: a read-only view over facts
/// sorted by concept, time and id, with the links that tie them together. Holds only facts that stand at that position.
/// </summary>
public readonly ref struct Timeline
{
    private readonly ReadOnlySpan<Fact> _facts;
    private readonly ReadOnlySpan<int> _start;

    /// <param name="facts">Sorted by <see cref="FactOrder"/>.</param>
    /// <param name="start">For each concept the index of its first fact, and one more at the end: <c>Concepts.Count + 1</c> numbers.</param>
    public Timeline(Entity patient, ReadOnlySpan<Fact> facts, ReadOnlySpan<int> start, ReadOnlySpan<Link> links, Position asKnownAt)
    {
        Patient = patient;
        _facts = facts;
        _start = start;
        Links = links;
        AsKnownAt = asKnownAt;
    }

    /// <summary>Whose timeline; a device or place for rows that no patient can be found for.</summary>
    public Entity Patient { get; }

    public Position AsKnownAt { get; }

    public ReadOnlySpan<Fact> Facts => _facts;

    public ReadOnlySpan<Link> Links { get; }

    /// <summary>All facts of a concept, by time, then id.</summary>
    public ReadOnlySpan<Fact> Of(Concept concept) => _facts[_start[concept.Index].._start[concept.Index + 1]];

    /// <summary>Index in <see cref="Facts"/> of the first fact of a concept.</summary>
    public int FirstOf(Concept concept) => _start[concept.Index];

    /// <summary>Latest fact about an entity that began within [notBefore, atOrBefore].</summary>
    public bool TryLatest(Concept concept, Entity about, long atOrBefore, long notBefore, out Fact fact)
    {
        var facts = Of(concept);
        for (var i = FirstAfter(facts, atOrBefore) - 1; i >= 0 && facts[i].EffectiveFrom >= notBefore; i--)
        {
            if (facts[i].About == about)
            {
                fact = facts[i];
                return true;
            }
        }

        fact = default;
        return false;
    }

    /// <summary>Index of the first fact that begins after a time, among facts sorted by time.</summary>
    public static int FirstAfter(ReadOnlySpan<Fact> facts, long ticks) => ByTime.FirstAfter(facts, ticks);
}
