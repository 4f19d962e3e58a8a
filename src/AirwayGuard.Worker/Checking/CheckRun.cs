using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Worker.Checking;

/// <summary>
/// One run over given resources: reads them, keeps them (in memory or a ledger), judges every patient, reports. Writes nothing
/// back. Of several versions of one resource the latest counts; what only an earlier one supported is reported as withdrawn.
/// </summary>
public sealed class CheckRun(RuleSet rules, IArrivalReader reader, OrderWordsReader orders, IChartedText texts, ICheckChart chart)
{
    public async ValueTask<CheckReport> RunAsync(
        IReadOnlyList<CheckInput> inputs, IReadOnlyList<Problem> earlierProblems, bool unreadable, CheckSettings settings, CancellationToken stop)
    {
        var problems = new List<Problem>(earlierProblems);
        var read = ReadAll(inputs, problems, ref unreadable);
        var waves = VersionWaves.Of(read);
        var asOf = CutAndFindTime(read, waves, inputs, settings, problems);
        var positions = new List<Position>();
        foreach (var wave in waves)
        {
            positions.Add(await chart.KeepAsync(wave, stop));
        }

        var judge = new PatientJudge(rules, chart);
        var judgeSettings = new JudgeSettings(asOf ?? 0, settings.AsOf is null, settings.UnknownAge);
        var gathered = new Gathered();
        foreach (var root in Roots(read))
        {
            await JudgeRootAsync(judge, root, positions, judgeSettings, gathered, problems, stop);
        }

        var reported = await new FindingWords(chart, texts).ReportAsync(gathered, stop);
        return new CheckReport(
            rules, asOf is { } ticks ? new DateTimeOffset(ticks, TimeSpan.Zero) : null,
            new JudgedCounts(gathered.Passes, gathered.Sessions, gathered.Orders.Count, gathered.Settings),
            reported.Findings, reported.CannotTell, await OrderReport.OfAsync(gathered.Orders, chart, orders, chart, stop), ProblemOrder.Of(problems, inputs), unreadable)
        {
            NotMapped = NotMapped(waves),
        };
    }

    private static ImmutableArray<NotMappedCode> NotMapped(List<List<ReadArrival>> waves) =>
    [
        .. VersionWaves.Latest(waves)
            .SelectMany(one => one.Reading.NotMapped)
            .GroupBy(code => code, StringComparer.Ordinal)
            .Select(rows => new NotMappedCode(rows.Key, rows.Count()))
            .OrderByDescending(one => one.Rows).ThenBy(one => one.Code, StringComparer.Ordinal),
    ];

    private List<ReadArrival> ReadAll(IReadOnlyList<CheckInput> inputs, List<Problem> problems, ref bool unreadable)
    {
        var read = new List<ReadArrival>(inputs.Count);
        foreach (var input in inputs)
        {
            var reading = new Core.Ports.Reading();
            reader.Read(input.Arrival, chart.Entities, reading);
            problems.AddRange(reading.Problems.Select(problem => problem.Where.Length == 0 ? problem with { Where = input.Where } : problem));
            unreadable |= !reading.Readable;
            read.Add(new ReadArrival(input.Arrival, reading));
        }

        return read;
    }

    private static long? CutAndFindTime(
        List<ReadArrival> read, List<List<ReadArrival>> waves, IReadOnlyList<CheckInput> inputs, CheckSettings settings, List<Problem> problems)
    {
        if (settings.AsOf is { } asked)
        {
            var dropped = read.Sum(one => AsOfCut.Cut(one.Reading, asked.UtcTicks));
            if (dropped > 0)
            {
                problems.Add(new Problem(Codes.AfterAsOf, "--as-of", dropped == 1
                    ? "One charted value begins after the time judged and was left out."
                    : FormattableString.Invariant($"{dropped} charted values begin after the time judged and were left out.")));
            }

            return asked.UtcTicks;
        }

        return LatestTime.Of(VersionWaves.Latest(waves), inputs, problems);
    }

    // Every patient that anything names, and devices or places whose rows lead to none.
    private static List<Entity> Roots(List<ReadArrival> read)
    {
        var (patients, others, links) = (new SortedSet<Entity>(), new SortedSet<Entity>(), new MemoryChart());
        links.Keep(read);
        foreach (var one in read)
        {
            foreach (var fact in one.Reading.Facts)
            {
                (fact.About.Kind == EntityKind.Patient ? patients : others).Add(fact.About);
            }

            foreach (var link in one.Reading.Links.Where(link => link.To.Kind == EntityKind.Patient))
            {
                patients.Add(link.To);
            }
        }

        foreach (var orphan in links.Orphans().Where(others.Contains))
        {
            patients.Add(orphan);
        }

        return [.. patients];
    }

    private async ValueTask JudgeRootAsync(
        PatientJudge judge, Entity root, List<Position> positions, JudgeSettings settings, Gathered gathered, List<Problem> problems, CancellationToken stop)
    {
        var superseded = new List<DerivedFindings>();
        for (var wave = 0; wave < positions.Count; wave++)
        {
            using var lease = await chart.LoadAsync(root, positions[wave], stop);
            var derived = judge.Judge(lease.View, settings);
            if (wave < positions.Count - 1)
            {
                superseded.Add(derived);
                continue;
            }

            gathered.Add(derived, lease.View, judge.Care, superseded);
            problems.AddRange(ChartProblems.Of(lease.View, judge.Care, chart));
        }
    }
}
