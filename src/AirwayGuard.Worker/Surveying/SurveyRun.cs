using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;
using AirwayGuard.Worker.Places;

namespace AirwayGuard.Worker.Surveying;

/// <summary>Surveys the wall: every outlet that is known, what it was last read at, and what the checks of it say. Judges and writes nothing else.</summary>
public sealed class SurveyRun(RuleSet rules, ISurveyChart chart)
{
    private readonly OutletJudge _judge = new(rules, chart);
    private readonly Care _care = new();

    /// <param name="asOf">What begins later is left out; null where nothing carries a time.</param>
    public async ValueTask<SurveyReport> RunAsync(DateTimeOffset? asOf, CancellationToken stop)
    {
        var places = new PlaceTree(await chart.PlacesAsync(stop));
        var at = asOf?.UtcTicks ?? DateTimeOffset.MaxValue.UtcTicks;
        var outlets = new List<(string Unit, SurveyedOutlet Outlet)>();
        foreach (var outlet in await chart.OutletsAsync(stop))
        {
            var surveyed = await OneAsync(outlet, at, places, stop);
            outlets.Add((places.UnitOf(surveyed.Place), surveyed));
        }

        return new SurveyReport(rules, asOf,
        [
            .. outlets.GroupBy(one => one.Unit, StringComparer.Ordinal)
                .Select(unit => new SurveyedUnit(unit.Key, places.NameOf(unit.Key),
                    [.. unit.Select(one => one.Outlet).OrderBy(one => one.PlaceName, StringComparer.Ordinal).ThenBy(one => one.Outlet, StringComparer.Ordinal)]))
                .OrderBy(unit => unit.Unit.Length == 0).ThenBy(unit => unit.Name, StringComparer.Ordinal).ThenBy(unit => unit.Unit, StringComparer.Ordinal),
        ]);
    }

    private async ValueTask<SurveyedOutlet> OneAsync(Entity outlet, long at, PlaceTree places, CancellationToken stop)
    {
        using var lease = await chart.LoadAsync(outlet, stop);
        var seen = See(lease.View, at, places);
        var regulators = ImmutableArray.CreateBuilder<SurveyedRegulator>(seen.Regulators.Count);
        foreach (var regulator in seen.Regulators)
        {
            regulators.Add(await RegulatorAsync(regulator, seen.Named, at, stop));
        }

        return seen.Outlet with { Regulators = [.. regulators.OrderBy(one => one.Regulator, StringComparer.Ordinal)] };
    }

    private (SurveyedOutlet Outlet, IReadOnlyList<Entity> Regulators, bool Named) See(in Timeline known, long at, PlaceTree places)
    {
        var timeline = Begun.At(known, at, out _);
        var reading = WallOutlets.LastReading(timeline);
        var regulators = WallOutlets.Regulators(timeline, reading, out var named);
        var place = chart.NameOf(WallOutlets.PlaceOf(timeline));
        Fact? last = reading < 0 ? null : timeline.Facts[reading];
        var (supply, survey) = _judge.Judge(timeline, last, at);
        return (
            new SurveyedOutlet(
                chart.NameOf(timeline.Patient), place, places.NameOf(place), last, last is { } fact ? TimeSpan.FromTicks(at - fact.EffectiveFrom) : null, [], supply, survey),
            regulators, named);
    }

    private async ValueTask<SurveyedRegulator> RegulatorAsync(Entity regulator, bool named, long at, CancellationToken stop)
    {
        using var own = await chart.LoadAsync(regulator, stop);
        var (set, mode) = StateIn(own.View, regulator, at);
        // Staff chart on the patient how the regulator stands: of that chart only these two values are taken, and of no name.
        foreach (var patient in RegulatorStates.Namers(own.View, at))
        {
            using var chartOf = await chart.LoadAsync(patient, stop);
            var there = StateIn(chartOf.View, regulator, at);
            (set, mode) = (RegulatorStates.Newer(set, there.Set), RegulatorStates.Newer(mode, there.Mode));
        }

        return new SurveyedRegulator(chart.NameOf(regulator), named, set, mode);
    }

    private (Fact? Set, Fact? Mode) StateIn(in Timeline known, Entity regulator, long at)
    {
        var timeline = Begun.At(known, at, out _);
        CareAssembler.Assemble(timeline, chart, _care);
        return RegulatorStates.Last(timeline, _care, regulator, at);
    }
}
