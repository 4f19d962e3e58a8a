using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Reading;

/// <summary>Reads what questions need. An order entry asks about one patient several times in a minute: what nobody touched meanwhile is not read again.</summary>
/// <param name="held">Null where others write to the same file, of whose commits nobody tells.</param>
internal sealed class QuestionReader(ReadPool readers, HeldReads? held)
{
    // In facts of a chart: a version comes with what it takes to hold it.
    private const int VersionWeight = 5;

    public TimelineLease Load(Entity patient, QuestionScope scope, Position asKnownAt)
    {
        var key = new HeldKey(patient, scope, asKnownAt);
        if (held is not null && held.TryGet(key, out TimelineLease? stay))
        {
            return stay!.Lent();
        }

        var (changes, restsOn) = (held?.Changes ?? 0, new HashSet<Entity>());
        using var lease = readers.Rent();
        var loaded = QuestionLoader.Load(lease.Database, patient, scope, asKnownAt, restsOn);
        if (held is null)
        {
            return loaded;
        }

        using (loaded)
        {
            stay = loaded.Kept();
        }

        held.Hold(key, stay, restsOn, stay.FactCount + 1, changes);
        return stay.Lent();
    }

    public StandingVersion? VersionOf(Entity row)
    {
        var key = new HeldKey(row, null, Position.Never);
        if (held is not null && held.TryGet(key, out StandingVersion? known))
        {
            return known;
        }

        var changes = held?.Changes ?? 0;
        using var lease = readers.Rent();
        var version = StandingReader.VersionOf(lease.Database, row);
        held?.Hold(key, version, [row], VersionWeight, changes);
        return version;
    }
}
