using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Storage.Reading;
using AirwayGuard.Storage.Sql;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>What loading for a question costs, in instructions of the database: the same however long the stay.</summary>
public sealed class QuestionLoadingTests : IDisposable
{
    private const int Day = 24 * 60;

    private static readonly QuestionScope Scope = new(
        [Concepts.TubeInnerDiameter, Concepts.BirthDate, Concepts.DeviceKind], [Concepts.VacuumPressure, Concepts.Fio2],
        new TimeRange(Charted.Minutes(60 * Day), Charted.Minutes(61 * Day)));

    private static readonly Position FarAhead = new(1L << 62);

    private readonly TestFolder _folder = new();
    private int _ids;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Loading_for_a_question_steps_over_nothing_more_after_sixty_days_of_other_rows_and_of_acts()
    {
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { WaitsForDisk = false }, new SetClock(Charted.Morning));
        // A day of each kind first: where something follows in an index, it is stepped on once.
        await ledger.KeepAsync([.. Bed(ledger), .. AskedFor(ledger), .. Others(ledger, 0), .. Others(ledger, 60)], null, Stop);
        var patient = ledger.Intern("Patient/1");
        var (before, whole) = (Cost(database => QuestionLoader.Load(database, patient, Scope, FarAhead, new HashSet<Entity>())), Cost(database => TimelineLoader.Load(database, patient, TimeRange.All, FarAhead)));

        foreach (var day in Enumerable.Range(1, 61))
        {
            await ledger.KeepAsync([.. Others(ledger, day)], null, Stop);
        }

        var (after, wholeAfter) = (Cost(database => QuestionLoader.Load(database, patient, Scope, FarAhead, new HashSet<Entity>())), Cost(database => TimelineLoader.Load(database, patient, TimeRange.All, FarAhead)));
        Assert.Equal(before.Instructions, after.Instructions);
        Assert.Equal((6, 6, 6), (before.Facts, after.Facts, after.Links));
        Assert.InRange(wholeAfter.Instructions, whole.Instructions * 10, long.MaxValue);
    }

    // The whole stay of the concepts that are needed recently, and what their rows name.
    [Fact]
    public async Task Rows_before_the_window_of_what_is_needed_recently_cost_nothing()
    {
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { WaitsForDisk = false }, new SetClock(Charted.Morning));
        await ledger.KeepAsync([.. Bed(ledger), .. AskedFor(ledger), Row(ledger, Concepts.VacuumPressure, 5, named: "Device/regulator")], null, Stop);
        var patient = ledger.Intern("Patient/1");
        var before = Cost(database => QuestionLoader.Load(database, patient, Scope, FarAhead, new HashSet<Entity>()));

        await ledger.KeepAsync([.. Enumerable.Range(10, 3000).Select(minute => Row(ledger, Concepts.VacuumPressure, minute, named: "Device/regulator"))], null, Stop);

        Assert.Equal(before, Cost(database => QuestionLoader.Load(database, patient, Scope, FarAhead, new HashSet<Entity>())));
    }

    private static IEnumerable<ReadArrival> Bed(SqliteLedger ledger) =>
    [
        Charted.Linking(ledger, "Encounter/1", "1", 0, (LinkKind.EncounterOf, "Encounter/1", "Patient/1"), (LinkKind.TakesPlaceAt, "Encounter/1", "Location/bed")),
        Charted.Linking(ledger, "Device/regulator", "1", 0, (LinkKind.StandsAt, "Device/regulator", "Location/bed")),
        Charted.Linking(ledger, "DeviceMetric/set", "1", 0, (LinkKind.MetricOf, "DeviceMetric/set", "Device/regulator")),
        Charted.Linking(ledger, "DeviceUseStatement/1", "1", 0, (LinkKind.UsedBy, "Device/tube", "Patient/1")),
    ];

    private IEnumerable<ReadArrival> AskedFor(SqliteLedger ledger) =>
    [
        Row(ledger, Concepts.TubeInnerDiameter, 0), Row(ledger, Concepts.TubeInnerDiameter, 59 * Day), Row(ledger, Concepts.VacuumPressure, (60 * Day) + 5, named: "Device/regulator"),
        Row(ledger, Concepts.VacuumPressure, 0), Row(ledger, Concepts.Fio2, (60 * Day) + 9), Row(ledger, Concepts.Fio2, 61 * Day), Row(ledger, Concepts.DeviceKind, 1, about: "Device/regulator"),
    ];

    // Monitors, rows that last, acts and orders; each as often before the window as in it.
    private IEnumerable<ReadArrival> Others(SqliteLedger ledger, int day)
    {
        for (var minute = day * Day; minute < (day + 1) * Day; minute += 30)
        {
            yield return Row(ledger, Concepts.Spo2, minute);
            yield return Row(ledger, Concepts.SuctionPass, minute, lasts: 20);
            yield return Row(ledger, Concepts.FullLineVacuum, minute, about: "Device/regulator");
        }

        for (var act = 0; act < 5; act++)
        {
            var id = $"{day}-{act}";
            yield return Charted.Linking(ledger, "Procedure/" + id, "1", 0, (LinkKind.DoneTo, "Procedure/" + id, "Patient/1"), (LinkKind.Uses, "Procedure/" + id, "Device/regulator"), (LinkKind.BasedOn, "Procedure/" + id, "ServiceRequest/" + id));
            yield return Charted.Linking(ledger, "ServiceRequest/" + id, "1", 0, (LinkKind.OrderFor, "ServiceRequest/" + id, "Patient/1"));
            yield return Charted.Linking(ledger, "Observation/panel" + id, "1", 0, (LinkKind.PanelOf, "Observation/panel" + id, "Patient/1"), (LinkKind.FocusOn, "Observation/panel" + id, "Device/regulator"));
        }
    }

    private ReadArrival Row(SqliteLedger ledger, Concept concept, int at, int lasts = 0, string about = "Patient/1", string named = "")
    {
        var id = $"r{++_ids}";
        var reading = new Core.Ports.Reading { Self = ledger.Intern("Observation/" + id) };
        reading.Facts.Add(Charted.Fact(ledger.Intern(about), reading.Self, concept, FactValue.Number(80, 0, Unit.MmHg), at) with { EffectiveTo = Charted.Minutes(at + lasts) });
        if (named.Length > 0)
        {
            reading.Links.Add(new Link(default, LinkKind.NamedWith, ledger.Intern(named), ledger.Intern(about), reading.Self, Charted.Minutes(at), Charted.Minutes(at) + 1, default, default));
        }

        return new ReadArrival(Charted.Resource("Observation", id, "1", 0, "{}"), reading);
    }

    private (long Instructions, int Facts, int Links) Cost(Func<Database, TimelineLease> load)
    {
        using var database = Database.OpenReader(LedgerFile.In(_folder.Path));
        using var lease = load(database);
        return (database.Instructions, lease.FactCount, lease.View.Links.Length);
    }
}
