using AirwayGuard.Sandbox.Search;
using AirwayGuard.Sandbox.Storage;

namespace AirwayGuard.Sandbox.Subscriptions;

/// <summary>Notifications still to be sent, noted in the same transaction as the write that caused them.</summary>
internal sealed class NotificationOutbox(Database database, ResourceStore store, SearchRunner runner)
{
    private List<Watch>? watches;
    private Dictionary<long, Watch> read = [];

    /// <summary>Whether a notification waits or a Subscription was written since the last look.</summary>
    public bool HasWork { get; private set; } = true;

    /// <summary>Drops what was remembered, after a rollback: the sequence of a version undone is given again to another.</summary>
    public void Forget()
    {
        watches = null;
        read = [];
    }

    /// <summary>Says that the dispatcher found nothing more to do now.</summary>
    public void Rest() => HasWork = false;

    /// <summary>Tests a new version against all active Subscriptions; R4 tests the new content only, deletions tell nobody.</summary>
    public void Note(StoredVersion version)
    {
        if (version.Type == "Subscription")
        {
            watches = null;
            HasWork = true;
        }

        if (version.IsDeletion)
        {
            return;
        }

        foreach (var watch in watches ??= Active())
        {
            if (watch.Criteria is { } criteria && criteria.Type == version.Type && !(watch.End <= version.LastUpdated) && runner.Matches(criteria, version.Id))
            {
                database.Execute("INSERT INTO notification (subscription, version_seq, attempts, due) VALUES (?1,?2,0,0)", watch.Version.Id, version.Sequence);
                HasWork = true;
            }
        }
    }

    // The first of each Subscription by way of the few Subscriptions there are: thousands may wait.
    private const string Heads = """
        FROM resource r JOIN notification n ON n.seq=(SELECT min(m.seq) FROM notification m WHERE m.subscription=r.id)
        WHERE r.type='Subscription'
        """;

    /// <summary>The oldest notification of a Subscription whose turn it is; the order within a Subscription is kept.</summary>
    public Notification? Due(DateTimeOffset now) => database.Query($"""
        SELECT n.seq, n.subscription, n.version_seq, n.attempts {Heads} AND n.due<=?1
        ORDER BY n.due, n.seq LIMIT 1
        """, row => new Notification(row.GetInt64(0), row.GetString(1), row.GetInt64(2), row.GetInt32(3)), now.UtcTicks).SingleOrDefault();

    /// <summary>When the next waiting notification is due; null when none waits.</summary>
    public DateTimeOffset? NextDue() => database.Query($"""
        SELECT n.due {Heads}
        ORDER BY n.due LIMIT 1
        """, row => (DateTimeOffset?)new DateTimeOffset(row.GetInt64(0), TimeSpan.Zero)).SingleOrDefault();

    public void Sent(Notification notification) => database.Execute("DELETE FROM notification WHERE seq=?1", notification.Sequence);

    public void Postpone(Notification notification, DateTimeOffset due) =>
        database.Execute("UPDATE notification SET attempts=attempts+1, due=?1 WHERE seq=?2", due.UtcTicks, notification.Sequence);

    public void Drop(string subscription) => database.Execute("DELETE FROM notification WHERE subscription=?1", subscription);

    /// <summary>The Subscriptions that wait for their first look.</summary>
    public List<Watch> Requested() => WithStatus("requested").ConvertAll(Read);

    /// <summary>The active Subscriptions, each read once a version: they are asked for at every write of one and at every notification.</summary>
    public List<Watch> Active()
    {
        var found = WithStatus("active").ConvertAll(sequence => read.TryGetValue(sequence, out var watch) ? watch : Read(sequence));
        read = found.ToDictionary(watch => watch.Version.Sequence);
        return found;
    }

    private Watch Read(long sequence) => Watch.Of(store.At(sequence)!, store.Now());

    private List<long> WithStatus(string status) => database.Query(
        "SELECT r.seq FROM resource r JOIN index_token t ON t.rid=r.rid AND t.key='Subscription.status' AND t.code=?1 WHERE r.type='Subscription' AND r.deleted=0 ORDER BY r.seq",
        row => row.GetInt64(0), status);
}

/// <summary>One notification waiting: its place, whose it is, what it tells of, and the tries so far.</summary>
internal sealed record Notification(long Sequence, string Subscription, long VersionSequence, int Attempts);
