using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Entities;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Keeps arrivals in their order, with what they say, what they end and whom they concern.</summary>
internal sealed class KeepVerb(IReadOnlyList<PreparedArrival> arrivals, List<KnownEntity> names, SweepCursor? moved)
{
    // Clocks differ, and a server is asked now and then only: so long after it became known a row is still new.
    private static readonly TimeSpan New = TimeSpan.FromHours(1);

    private readonly List<byte> _digests = [];
    private Position _first;

    public IReadOnlyList<KeptArrival> Run(WriteSession session)
    {
        var marking = new Marking(session);
        var kept = new KeptArrival[arrivals.Count];
        _first = new Position(session.Newest.Value + 1);
        for (var i = 0; i < kept.Length; i++)
        {
            var standing = Standing.Of(session.Database, arrivals[i].Row);
            kept[i] = standing is { } before && Duplicates.Find(session.Database, arrivals[i], before) is { } known
                ? new KeptArrival(known, IsNew: false)
                : new KeptArrival(Keep(session, arrivals[i], standing, marking), IsNew: true);
        }

        session.SaveNames(names, _first);
        marking.Save(_first);
        MoveCursor(session.Database);
        if (session.Newest >= _first)
        {
            var range = string.Create(CultureInfo.InvariantCulture, $"{_first.Value}-{session.Newest.Value}");
            session.Audit(new AuditNote("kept", range, "{}", _digests.ToArray()), session.Now);
        }

        return kept;
    }

    private Position Keep(WriteSession session, PreparedArrival prepared, Standing? standing, Marking marking)
    {
        var position = session.NextPosition();
        ArrivalRow.Insert(session.Database, position, prepared);
        session.Touch([prepared.Row]);
        _digests.AddRange(prepared.Digest);
        marking.IsFresh = session.Now - prepared.Arrival.KnownAt <= New;
        var (stands, rowKnown) = prepared.Row.IsNone
            ? (true, _first)
            : new Succession(session.Database, prepared, standing, position).Apply(_first, marking);

        var until = stands ? Position.Never : position;
        Insert(session.Database, prepared.Read.Reading, position, rowKnown, until);
        if (stands)
        {
            marking.Touch(prepared.Read.Reading);
        }

        // In this commit, since the cursor moves in it too: after a crash nobody would ask for the row again.
        if (!prepared.Read.Reading.Readable)
        {
            var code = prepared.Read.Reading.Problems is [var first, ..] ? first.Code : Codes.ArrivalUnreadable;
            Parking.Park(session, new ParkedItem(position, null, code.Id, prepared.Arrival.Type ?? "", session.Now));
        }

        return position;
    }

    private static void Insert(Database database, Core.Ports.Reading reading, Position position, Position rowKnown, Position until)
    {
        var facts = database.Prepared(FactRow.Insert);
        foreach (var fact in reading.Facts)
        {
            FactRow.Bind(facts, fact with { Id = fact.Id with { Arrival = position }, RowKnown = rowKnown, KnownUntil = until }).Run();
        }

        var links = database.Prepared(LinkRow.Insert);
        foreach (var link in reading.Links)
        {
            LinkRow.Bind(links, link with { Id = link.Id with { Arrival = position }, RowKnown = rowKnown, KnownUntil = until }).Run();
        }
    }

    private void MoveCursor(Database database)
    {
        if (moved is not null)
        {
            database.Prepared("INSERT INTO cursors (name, server_time, last_id) VALUES (?1, ?2, ?3) ON CONFLICT (name) DO UPDATE SET server_time = ?2, last_id = ?3")
                .Bind(1, moved.Name).Bind(2, moved.ServerTime.UtcTicks).Bind(3, moved.LastId).Run();
        }
    }
}
