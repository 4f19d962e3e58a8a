using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Judging;

/// <summary>
/// Finds what persons did to our resources: a Flag set inactive or an issue mitigated, in a version that is not ours, or as the
/// sink met it (an arrival without a version).
/// </summary>
internal static class PersonsActsReader
{
    public static async ValueTask<PersonsActs> ReadAsync(ILedger ledger, TimelineLease lease, CancellationToken stop)
    {
        var candidates = Candidates(lease.View);
        if (candidates.Count == 0)
        {
            return PersonsActs.None;
        }

        var (flags, issues) = (new HashSet<Guid>(), new HashSet<Guid>());
        foreach (var (isFlag, key, position) in candidates)
        {
            if (!Guid.TryParse(ledger.NameOf(key), out var guid))
            {
                continue;
            }

            var ours = await ledger.LastSentAsync(guid, stop);
            var arrival = await ledger.ArrivalAsync(position, stop);
            if (ours is null || arrival?.Version is not { } theirs || !IsOursOrOlder(ours.Version, theirs))
            {
                (isFlag ? flags : issues).Add(guid);
            }
        }

        return new PersonsActs(flags, issues);
    }

    // A version before the last one of ours was ours too, or we wrote over it knowing it: a person's is never written over. It
    // stands here only until the next sweep brings the newer one.
    private static bool IsOursOrOlder(string ours, string theirs) =>
        string.Equals(ours, theirs, StringComparison.Ordinal)
        || (long.TryParse(ours, NumberStyles.None, CultureInfo.InvariantCulture, out var written) && long.TryParse(theirs, NumberStyles.None, CultureInfo.InvariantCulture, out var seen) && seen < written);

    private static List<(bool IsFlag, Entity Key, Position Position)> Candidates(in Timeline timeline)
    {
        var found = new List<(bool, Entity, Position)>();
        foreach (ref readonly var fact in timeline.Of(Concepts.FlagInactive))
        {
            found.Add((true, fact.Group, fact.Id.Arrival));
        }

        foreach (ref readonly var fact in timeline.Of(Concepts.IssueMitigated))
        {
            found.Add((false, fact.Group, fact.Id.Arrival));
        }

        return found;
    }
}
