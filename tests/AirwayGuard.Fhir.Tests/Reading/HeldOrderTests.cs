using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>From when an order is on hold: from the beginning for a first version, from when it was saved for a later one.</summary>
public sealed class HeldOrderTests
{
    private static readonly DateTimeOffset Written = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData("on-hold", "1", 60, null)]
    [InlineData("on-hold", null, 60, null)] // nobody says that there was a version before
    [InlineData("on-hold", "2", 60, 3600)]
    [InlineData("on-hold", "c0ffee", 90, 5400)]
    [InlineData("on-hold", "2", -60, null)] // a server's clock behind the writer's
    [InlineData("active", "2", 60, null)]
    [InlineData("revoked", "2", 60, null)]
    public void A_later_version_on_hold_says_how_long_after_the_writing_it_was_saved(string status, string? version, int minutes, int? seconds)
    {
        var json = $$"""
            {"resourceType":"ServiceRequest","id":"r","status":"{{status}}","intent":"order","authoredOn":"2026-03-01T08:00:00Z","subject":{"reference":"Patient/p1"},
             "code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"suction-pass"}]},"asNeededBoolean":true}
            """;
        var reading = new Core.Ports.Reading();
        var arrival = new Arrival(ArrivalKind.Resource, "test", "ServiceRequest", "r", version, Written.AddMinutes(minutes), KnownBy.ServersStamp, Encoding.UTF8.GetBytes(json));
        new FhirArrivalReader(ShippedMaps.StandardCodes).Read(arrival, new EntityTable(), reading);

        Assert.Contains(reading.Facts, fact => fact.Concept == Concepts.OrderStatus);
        Assert.Equal(
            seconds is { } after ? [after] : Array.Empty<decimal>(),
            reading.Facts.Where(fact => fact.Concept == Concepts.OrderHeldAfter).Select(fact => fact.Value.Amount));
    }
}
