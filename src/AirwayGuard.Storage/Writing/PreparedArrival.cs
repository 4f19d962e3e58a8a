using System.Security.Cryptography;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Entities;

namespace AirwayGuard.Storage.Writing;

/// <summary>An arrival made ready on its caller's thread, so that the writer neither compresses nor hashes.</summary>
internal sealed class PreparedArrival
{
    private PreparedArrival(ReadArrival read, Entity row, byte[] salt)
    {
        (Read, Row, Salt) = (read, row, salt);
        (Codec, Stored) = BodyCodec.Encode(read.Arrival.Body);
        Digest = HMACSHA256.HashData(salt, read.Arrival.Body.Span);
    }

    public ReadArrival Read { get; }

    public Arrival Arrival => Read.Arrival;

    /// <summary>The resource over all its versions; none where the arrival is no resource.</summary>
    public Entity Row { get; }

    public byte[] Salt { get; }

    /// <summary>HMAC-SHA-256 of the body under the salt: worth nothing once the salt is purged.</summary>
    public byte[] Digest { get; }

    public long Codec { get; }

    public ReadOnlyMemory<byte> Stored { get; }

    public static PreparedArrival Of(ReadArrival read, EntityStore entities, Action<byte[]> fillSalt)
    {
        var row = RowOf(read, entities);
        if (!row.IsNone && read.Reading.Identifier.Length > 0)
        {
            entities.Offer(row, read.Reading.Identifier);
        }

        var salt = new byte[Auditing.AuditChain.SaltLength];
        fillSalt(salt);
        return new PreparedArrival(read, row, salt);
    }

    /// <summary>An arrival that the ledger makes itself: it names no row and says no fact.</summary>
    public static PreparedArrival OfOwn(Arrival arrival, byte[] salt) => new(new ReadArrival(arrival, new Core.Ports.Reading()), default, salt);

    /// <summary>Every entity the arrival speaks of; some may be none.</summary>
    public IEnumerable<Entity> Entities()
    {
        yield return Row;
        foreach (var fact in Read.Reading.Facts)
        {
            yield return fact.About;
            yield return fact.Encounter;
            yield return fact.Device;
            yield return fact.Act;
            yield return fact.Row;
            yield return fact.Group;
            if (fact.Value is { IsNumber: true, Symbol: > 0 })
            {
                yield return new Entity(EntityKind.RowCode, fact.Value.Symbol);
            }
        }

        foreach (var link in Read.Reading.Links)
        {
            yield return link.From;
            yield return link.To;
            yield return link.Row;
        }
    }

    private static Entity RowOf(ReadArrival read, EntityStore entities)
    {
        if (!read.Reading.Self.IsNone)
        {
            return read.Reading.Self;
        }

        return read.Arrival is { Type: { } type, Id: { } id, Kind: ArrivalKind.Resource or ArrivalKind.Deletion }
            ? entities.Intern(References.KindOf(type), System.Text.Encoding.UTF8.GetBytes($"{type}/{id}"))
            : default;
    }
}
