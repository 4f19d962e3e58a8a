using System.Buffers;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Core.Questions;

/// <summary>One resource laid over a timeline.</summary>
/// <param name="RowKnown">Position at which the ledger first knew of the resource; null where it never did.</param>
public readonly record struct Laid(Reading Reading, Position? RowKnown);

/// <summary>
/// A timeline with what a question says laid over it. What is laid takes the place of what the ledger has of the same resource. Pure:
/// nothing is written, and the lease below stays as it is.
/// </summary>
public static class LaidOver
{
    /// <param name="stay">What the ledger has; null where the patient is not followed.</param>
    /// <param name="laid">Resources, later ones known after earlier ones; each gets the position <paramref name="first"/> and on.</param>
    /// <param name="first">Behind every position of the ledger.</param>
    public static TimelineLease Of(Entity patient, TimelineLease? stay, IReadOnlyList<Laid> laid, Position first)
    {
        var (replaced, standing) = (new HashSet<Entity>(), Standing(laid));
        foreach (var one in laid)
        {
            replaced.Add(one.Reading.Self);
        }

        var links = LinksOf(stay, laid, standing, replaced, first);
        var (reached, kept) = (new HashSet<Entity>(), new List<Link>());
        Scope.OfPatient(patient, links, reached, kept);

        // Rented, as the stay itself is: it is too large to be made anew for each judgement.
        var facts = ArrayPool<Fact>.Shared.Rent((stay?.FactCount ?? 0) + laid.Sum(static one => one.Reading.Facts.Count));
        var sorted = 0;
        foreach (ref readonly var fact in stay is null ? [] : stay.View.Facts)
        {
            if ((fact.About == patient || reached.Contains(fact.About)) && !replaced.Contains(fact.Row))
            {
                facts[sorted++] = fact;
            }
        }

        var count = sorted;
        foreach (var i in standing)
        {
            foreach (var fact in laid[i].Reading.Facts)
            {
                if (reached.Contains(fact.About))
                {
                    facts[count++] = fact with { Id = new FactId(At(first, i), fact.Id.Ordinal), RowKnown = laid[i].RowKnown ?? first, KnownUntil = Position.Never };
                }
            }
        }

        var start = FactOrder.MergeAndIndex(facts.AsSpan(0, count), sorted);
        var rented = ArrayPool<Link>.Shared.Rent(kept.Count);
        kept.CopyTo(rented);
        return new TimelineLease(patient, facts, count, start, rented, kept.Count, At(first, laid.Count), isRented: true);
    }

    // Of two versions of one resource the later one stands.
    private static List<int> Standing(IReadOnlyList<Laid> laid)
    {
        var last = new Dictionary<Entity, int>();
        for (var i = 0; i < laid.Count; i++)
        {
            last[laid[i].Reading.Self] = i;
        }

        return [.. Enumerable.Range(0, laid.Count).Where(i => laid[i].Reading.Self.IsNone || last[laid[i].Reading.Self] == i)];
    }

    private static LinkTable LinksOf(TimelineLease? stay, IReadOnlyList<Laid> laid, List<int> standing, HashSet<Entity> replaced, Position first)
    {
        var links = new LinkTable();
        foreach (ref readonly var link in stay is null ? [] : stay.View.Links)
        {
            links.AddUnless(replaced, link);
        }

        foreach (var i in standing)
        {
            foreach (var link in laid[i].Reading.Links)
            {
                links.Add(link with { Id = new FactId(At(first, i), link.Id.Ordinal), RowKnown = laid[i].RowKnown ?? first, KnownUntil = Position.Never });
            }
        }

        return links;
    }

    private static Position At(Position first, int place) => new(first.Value + place);

    private sealed class LinkTable : ILinkSource
    {
        private readonly Dictionary<Entity, List<Link>> _from = [];
        private readonly Dictionary<Entity, List<Link>> _to = [];

        public IEnumerable<Link> From(Entity entity) => _from.GetValueOrDefault(entity) ?? [];

        public IEnumerable<Link> To(Entity entity) => _to.GetValueOrDefault(entity) ?? [];

        public void AddUnless(HashSet<Entity> replaced, in Link link)
        {
            if (!replaced.Contains(link.Row))
            {
                Add(link);
            }
        }

        public void Add(in Link link)
        {
            Of(_from, link.From).Add(link);
            Of(_to, link.To).Add(link);
        }

        private static List<Link> Of(Dictionary<Entity, List<Link>> index, Entity end)
        {
            if (!index.TryGetValue(end, out var list))
            {
                index[end] = list = [];
            }

            return list;
        }
    }
}
