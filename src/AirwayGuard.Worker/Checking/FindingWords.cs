using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>Fetches names and charted words for findings, and puts them in the order of the output: by time, check, about.</summary>
internal sealed class FindingWords(IArrivalWords chart, IChartedText texts)
{
    private readonly Dictionary<FactId, string?> _charted = [];

    public async ValueTask<(ImmutableArray<ReportedFinding> Findings, ImmutableArray<ReportedCannotTell> CannotTell)> ReportAsync(
        Gathered gathered, CancellationToken stop)
    {
        var findings = new List<ReportedFinding>();
        foreach (var finding in gathered.Findings)
        {
            findings.Add(new ReportedFinding(finding, PatientOf(finding.Patient), AboutOf(finding), await ChartedAsync(finding.Latest.Charted, stop))
            {
                Place = finding.Place.IsNone ? null : chart.NameOf(finding.Place),
                Late = await IsLateAsync(finding.Latest, stop),
            });
        }

        var cannotTell = gathered.CannotTell.Select(one => new ReportedCannotTell(
            one, PatientOf(one.Patient), string.Join(", ", one.Missing.Select(MissingWords.Of)), [.. one.About.Select(chart.NameOf)]));
        return (
            [.. findings
                .OrderBy(one => one.Finding.First.At)
                .ThenBy(one => one.Finding.Rule.Id, StringComparer.Ordinal)
                .ThenBy(one => string.Join(' ', one.About), StringComparer.Ordinal)],
            [.. cannotTell
                .OrderBy(one => one.CannotTell.At)
                .ThenBy(one => one.CannotTell.Rule.Id, StringComparer.Ordinal)
                .ThenBy(one => string.Join(' ', one.About), StringComparer.Ordinal)]);
    }

    // Of rows without meta.lastUpdated nobody can say when they became known.
    private async ValueTask<bool> IsLateAsync(Occurrence occurrence, CancellationToken stop)
    {
        var known = DateTimeOffset.UnixEpoch;
        foreach (var item in occurrence.RestsOn)
        {
            if (await chart.ArrivalAsync(item.Fact.Arrival, stop) is { } arrival && arrival.KnownAt > known)
            {
                known = arrival.KnownAt;
            }
        }

        return Timeliness.IsLate(occurrence, known, CheckSettings.LateAfter);
    }

    private string? PatientOf(Entity root) => root.Kind == EntityKind.Patient ? chart.NameOf(root) : null;

    private ImmutableArray<string> AboutOf(DerivedFinding finding)
    {
        var anchors = finding.Occurrences
            .SelectMany(occurrence => occurrence.Anchors)
            .OrderBy(anchor => anchor.At).ThenBy(anchor => chart.NameOf(anchor.Row), StringComparer.Ordinal)
            .Select(anchor => chart.NameOf(anchor.Row));
        var compared = finding.Occurrences.SelectMany(occurrence => occurrence.Evidence).Select(item => chart.NameOf(item.Row));
        return [.. anchors.Concat(compared).Distinct(StringComparer.Ordinal)];
    }

    private async ValueTask<string?> ChartedAsync(EvidenceItem? item, CancellationToken stop)
    {
        if (item is not { } charted)
        {
            return null;
        }

        if (!_charted.TryGetValue(charted.Fact, out var words))
        {
            var arrival = await chart.ArrivalAsync(charted.Fact.Arrival, stop);
            _charted[charted.Fact] = words = arrival is null ? null : texts.ValueOf(arrival.Body.Span, charted.Fact.Ordinal);
        }

        return words;
    }
}
