using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>What stands now of places and devices: the newest version of each, nothing of what was deleted or superseded, and nothing of a patient.</summary>
public sealed class StandingReaderTests : IDisposable
{
    private readonly TestFolder _folder = new();
    private readonly SetClock _clock = new(Charted.Morning);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Of_each_resource_of_a_type_the_version_that_stands_is_read_and_none_of_a_deleted_one()
    {
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { WaitsForDisk = false }, _clock);
        await ledger.KeepAsync(
            [Place(ledger, "a", "1", "old"), Place(ledger, "b", "1", "gone"), Charted.Vacuum(ledger, "o", "1", "Patient/1", 220)], null, Stop);
        await ledger.KeepAsync([Place(ledger, "a", "3", "new"), Place(ledger, "a", "2", "late"), Deleted(ledger, "b")], null, Stop);
        await using var reader = SqliteLedgerReader.Open(_folder.Path);

        var places = await reader.StandingAsync("Location", Stop);

        Assert.Equal(["Location/a 3 new"], places.Select(one => $"{one.Type}/{one.Id} {one.Version} {Encoding.UTF8.GetString(one.Body.Span)}"), StringComparer.Ordinal);
        Assert.Empty(await reader.StandingAsync("Device", Stop));
    }

    [Fact]
    public async Task Outlets_are_what_a_standing_row_makes_one_and_never_a_patient()
    {
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { WaitsForDisk = false }, _clock);
        await ledger.KeepAsync(
        [
            Row(ledger, "r1", "Location/room", Concepts.FullLineVacuum, FactValue.Number(400, 0, Unit.MmHg)),
            Row(ledger, "r2", "Device/outlet", Concepts.DeviceKind, FactValue.Code(Answers.WallVacuumOutlet)),
            Row(ledger, "r3", "Device/regulator", Concepts.DeviceKind, FactValue.Code(Answers.VacuumRegulator)),
            Row(ledger, "r4", "Device/taken-back", Concepts.FullLineVacuum, FactValue.Number(400, 0, Unit.MmHg)),
            Row(ledger, "r5", "Patient/1", Concepts.FullLineVacuum, FactValue.Number(400, 0, Unit.MmHg)),
        ], null, Stop);
        await ledger.KeepAsync([Charted.Deletion(ledger, "r4", "2", 5)], null, Stop);
        await using var reader = SqliteLedgerReader.Open(_folder.Path);

        Assert.Equal(["Location/room", "Device/outlet"], (await reader.OutletsAsync(Stop)).Select(reader.NameOf), StringComparer.Ordinal);
    }

    private static ReadArrival Place(ILedger ledger, string id, string version, string body) =>
        new(Charted.Resource("Location", id, version, int.Parse(version, System.Globalization.CultureInfo.InvariantCulture), body), new Core.Ports.Reading { Self = ledger.Intern("Location/" + id) });

    private static ReadArrival Deleted(ILedger ledger, string id) =>
        new(new Arrival(ArrivalKind.Deletion, "https://ehr.example/fhir", "Location", id, "2", Charted.Morning.AddMinutes(9), KnownBy.Received, default), new Core.Ports.Reading { Self = ledger.Intern("Location/" + id) });

    private static ReadArrival Row(ILedger ledger, string id, string about, Concept concept, FactValue value)
    {
        var reading = new Core.Ports.Reading { Self = ledger.Intern("Observation/" + id) };
        reading.Facts.Add(Charted.Fact(ledger.Intern(about), reading.Self, concept, value, 0));
        return new ReadArrival(Charted.Resource("Observation", id, "1", 0, "{}"), reading);
    }
}
