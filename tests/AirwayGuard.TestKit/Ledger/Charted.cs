using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.TestKit.Ledger;

/// <summary>Valid arrivals for ledger tests, already read. All invented.</summary>
public static class Charted
{
    /// <summary>A morning on a ward.</summary>
    public static readonly DateTimeOffset Morning = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    public static Entity Intern(this ILedger ledger, string name, EntityKind? kind = null) =>
        ledger.Entities.Intern(kind ?? References.KindOf(name.AsSpan(0, name.IndexOf('/', StringComparison.Ordinal))), Encoding.UTF8.GetBytes(name));

    /// <summary>One version of an Observation with one vacuum pressure.</summary>
    /// <param name="about">The subject, e.g. <c>Patient/1</c>.</param>
    /// <param name="knownAfter">Minutes after <see cref="Morning"/> at which the version became known.</param>
    /// <param name="at">Minutes after <see cref="Morning"/> that the value is about.</param>
    public static ReadArrival Vacuum(ILedger ledger, string id, string? version, string about, int mmHg, int knownAfter = 0, int at = 0, string identifier = "")
    {
        var reading = new Reading { Self = ledger.Intern($"Observation/{id}"), Identifier = identifier };
        reading.Facts.Add(Fact(ledger.Intern(about), reading.Self, Concepts.VacuumPressure, FactValue.Number(mmHg, 0, Unit.MmHg), at));
        return new ReadArrival(Resource("Observation", id, version, knownAfter, $$"""{"resourceType":"Observation","id":"{{id}}","v":{{mmHg}}}"""), reading);
    }

    /// <summary>One version of a resource that says links only.</summary>
    public static ReadArrival Linking(ILedger ledger, string name, string? version, int knownAfter, params (LinkKind Kind, string From, string To)[] links)
    {
        var self = ledger.Intern(name);
        var reading = new Reading { Self = self };
        foreach (var (kind, from, to) in links)
        {
            reading.Links.Add(new Link(default, kind, ledger.Intern(from), ledger.Intern(to), self, long.MinValue, long.MaxValue, default, default));
        }

        var slash = name.IndexOf('/', StringComparison.Ordinal);
        var body = string.Join(',', links.Select(link => $"{link.Kind} {link.From} {link.To}"));
        return new ReadArrival(Resource(name[..slash], name[(slash + 1)..], version, knownAfter, body), reading);
    }

    public static ReadArrival Deletion(ILedger ledger, string id, string? version, int knownAfter) =>
        new(new Arrival(ArrivalKind.Deletion, "https://ehr.example/fhir", "Observation", id, version, Morning.AddMinutes(knownAfter), KnownBy.Received, default),
            new Reading { Self = ledger.Intern($"Observation/{id}") });

    public static Arrival Resource(string type, string id, string? version, int knownAfter, string body) =>
        new(ArrivalKind.Resource, "https://ehr.example/fhir", type, id, version, Morning.AddMinutes(knownAfter), KnownBy.ServersStamp, Encoding.UTF8.GetBytes(body));

    public static Fact Fact(Entity about, Entity row, Concept concept, FactValue value, int at) => new(
        default, about, default, default, default, row, default, concept, FactMarks.None, 60, Minutes(at), Minutes(at), default, default, value);

    /// <summary>UTC ticks so many minutes after <see cref="Morning"/>.</summary>
    public static long Minutes(int after) => Morning.AddMinutes(after).UtcTicks;
}
