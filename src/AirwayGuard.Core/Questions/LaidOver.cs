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
        var replaced = new HashSet<Entity>();
        foreach (var one in laid)
        {
            replaced.Add(one.Reading.Self);
        }

        var links = new LinkTable();
        var facts = new List<Fact>();
        if (stay is not null)
        {
            var view = stay.View;
            foreach (ref readonly var link in view.Links)
            {
                links.AddUnless(replaced, link);
            }

            foreach (ref readonly var fact in view.Facts)
            {
                if (!replaced.Contains(fact.Row))
                {
                    facts.Add(fact);
                }
            }
        }

        Lay(laid, first, facts, links);
        var (reached, kept) = (new HashSet<Entity>(), new List<Link>());
        Scope.OfPatient(patient, links, reached, kept);
        facts.RemoveAll(fact => !reached.Contains(fact.About));
        var sorted = facts.ToArray();
        var start = FactOrder.SortAndIndex(sorted);
        return new TimelineLease(patient, sorted, sorted.Length, start, [.. kept], kept.Count, new Position(first.Value + laid.Count), isRented: false);
    }

    private static void Lay(IReadOnlyList<Laid> laid, Position first, List<Fact> facts, LinkTable links)
    {
        // Of two versions of one resource the later one stands.
        var last = new Dictionary<Entity, int>();
        for (var i = 0; i < laid.Count; i++)
        {
            last[laid[i].Reading.Self] = i;
        }

        for (var i = 0; i < laid.Count; i++)
        {
            var (reading, known) = laid[i];
            if (!reading.Self.IsNone && last[reading.Self] != i)
            {
                continue;
            }

            var (position, rowKnown) = (new Position(first.Value + i), known ?? first);
            foreach (var fact in reading.Facts)
            {
                facts.Add(fact with { Id = new FactId(position, fact.Id.Ordinal), RowKnown = rowKnown, KnownUntil = Position.Never });
            }

            foreach (var link in reading.Links)
            {
                links.Add(link with { Id = new FactId(position, link.Id.Ordinal), RowKnown = rowKnown, KnownUntil = Position.Never });
            }
        }
    }

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
