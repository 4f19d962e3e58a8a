using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Histories;
using UnknownAge = AirwayGuard.Core.Judging.UnknownAge;

namespace AirwayGuard.Host.Tests.Properties;

/// <summary>The engine fed in batches: each is kept as known together, then every patient is judged on all that is known.</summary>
internal static class EngineBatches
{
    private static readonly FhirArrivalReader Reader = new(ShippedMaps.StandardCodes);

    public static IReadOnlyList<ReferenceReport> Judge(IReadOnlyList<IReadOnlyList<string>> batches, string rules)
    {
        var (entities, chart, latest) = (new EntityTable(), new MemoryChart(), long.MinValue);
        var judge = new PatientJudge(EngineRuns.WithSilent(rules), entities);
        var reports = new List<ReferenceReport>();
        foreach (var batch in batches)
        {
            var read = batch.Select(json => Read(json, entities)).ToArray();
            chart.Keep(read);
            latest = read.SelectMany(one => one.Reading.Facts).SelectMany(TimesOf)
                .Concat(read.SelectMany(one => one.Reading.Links).SelectMany(link => new[] { link.FromTime, link.ToTime == link.FromTime + 1 ? link.FromTime : link.ToTime }))
                .Where(time => time is not (long.MinValue or long.MaxValue)).Append(latest).Max();
            reports.Add(Report(judge, chart, entities, Math.Max(0, latest)));
        }

        return reports;
    }

    private static IEnumerable<long> TimesOf(Fact fact) => [fact.EffectiveFrom, fact.EffectiveTo];

    private static ReadArrival Read(string json, EntityTable entities)
    {
        var body = Encoding.UTF8.GetBytes(json);
        using var document = System.Text.Json.JsonDocument.Parse(body);
        var (type, id) = (document.RootElement.GetProperty("resourceType").GetString(), document.RootElement.GetProperty("id").GetString());
        var arrival = new Arrival(ArrivalKind.Resource, "input", type, id, null, DateTimeOffset.UnixEpoch, KnownBy.Import, body);
        var reading = new Reading();
        Reader.Read(arrival, entities, reading);
        entities.Identify(reading.Self, reading.Identifier);
        return new ReadArrival(arrival, reading);
    }

    private static ReferenceReport Report(PatientJudge judge, MemoryChart chart, EntityTable entities, long asOf)
    {
        var (counts, findings, cannotTell) = (new JudgedCounts(0, 0, 0, 0), new List<ReportedFinding>(), new List<ReportedCannotTell>());
        foreach (var patient in chart.Patients)
        {
            using var lease = chart.Load(patient, chart.Newest);
            var derived = judge.Judge(lease.View, new JudgeSettings(asOf, true, UnknownAge.CannotTell));
            var care = judge.Care;
            counts = new(
                counts.Passes + care.Passes.Length, counts.Sessions + care.Sessions.Length, counts.Orders + care.Orders.Length, counts.Settings + care.Settings.Length);
            findings.AddRange(derived.Findings.Select(f => Finding(f, entities.NameOf(patient))));
            cannotTell.AddRange(derived.CannotTell
                .Select(c => new ReportedCannotTell(c.Rule.Id, entities.NameOf(patient), Time(c.At), c.Count)));
        }

        return new(counts, findings, cannotTell);
    }

    private static ReportedFinding Finding(DerivedFinding finding, string patient)
    {
        var latest = finding.Latest;
        decimal? value = latest.Value is { } amount ? Math.Round(amount, 3, MidpointRounding.AwayFromZero) : null;
        return new(
            finding.Rule.Id, "breach", latest.Severity.ToString().ToLowerInvariant(), patient, [], Time(finding.First.At), Time(latest.At), Wording.Band(latest.Band),
            value, value is null || latest.Unit == Unit.None ? null : latest.Unit == Unit.Unknown ? "unit not recognised" : Units.Ucum(latest.Unit), value is null && !finding.Rule.Criteria[0].Measure.ShowsNoValue ? latest.Code : null, finding.Occurrences.Length,
            finding.State == FindingState.Cleared ? "cleared" : "open", finding.IsWithheld ? finding.Rule.WithheldBy : null);
    }

    private static DateTimeOffset Time(long ticks) => new(ticks, TimeSpan.Zero);
}
