using System.Diagnostics;
using System.Globalization;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Benchmarks.RowReading;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>
/// <c>year [--beds N] [--days N] [--seed N] [--ledger]</c>: what a unit charts in so many days, made bed by bed and day by day and judged
/// as it is made. Prints rows, stays, findings, CPU time beside nine fields picked from the same bytes, and the memory after each tenth.
/// </summary>
internal static class YearCommand
{
    public const string Name = "year";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (!YearOptions.TryParse(args, out var options))
        {
            await errors.WriteLineAsync(YearOptions.Usage);
            return 2;
        }

        await using IYearWay way = options.KeepsInLedger ? await LedgerWay.OpenAsync() : new MemoryWay();
        var (unit, sums) = (new Unit(options), new YearSums());
        await output.WriteLineAsync("| day | rows | stays ended | findings | rows per CPU s | times nine fields | heap MB | working set MB | on disk MB |\n|---|---|---|---|---|---|---|---|---|");
        for (var day = 0; day < options.Days; day++)
        {
            await DayAsync(way, [.. unit.Day(day)], sums);
            if ((day + 1) * 10 / options.Days > day * 10 / options.Days)
            {
                await output.WriteLineAsync(Line(day + 1, sums, way));
                await output.FlushAsync();
            }
        }

        await output.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"\n{options.Beds} beds, {options.Days} days, seed {options.Seed}, {(options.KeepsInLedger ? "ledger" : "memory")}: {sums.Rows:N0} rows ({(double)sums.Rows / options.Beds / options.Days:N0} a bed and day), {sums.Stays:N0} stays, {sums.Findings:N0} findings; CPU: {sums.Judged.TotalSeconds:N0} s to read, keep and judge, {sums.Picked.TotalSeconds:N0} s to pick nine fields, {sums.Made.TotalSeconds:N0} s to make the rows; {Stopwatch.GetElapsedTime(sums.Began).TotalMinutes:N1} min on the clock"));
        return 0;
    }

    private static async Task DayAsync(IYearWay way, IReadOnlyList<BedDay> beds, YearSums sums)
    {
        foreach (var bed in beds)
        {
            var began = Environment.CpuUsage.TotalTime;
            var rows = bed.Rows();
            sums.Made += Environment.CpuUsage.TotalTime - began;
            sums.Picked += Cost.Of(() => rows.LongCount(row => NineFields.Read(row.Body.Span).Id is not null)).Cpu;
            began = Environment.CpuUsage.TotalTime;
            await way.KeepAsync(bed, rows);
            sums.Judged += Environment.CpuUsage.TotalTime - began;
            sums.Rows += rows.Count;
        }

        var judging = Environment.CpuUsage.TotalTime;
        sums.Findings += await way.JudgeAsync(beds);
        sums.Judged += Environment.CpuUsage.TotalTime - judging;
        sums.Stays += beds.Count(bed => bed.IsLast);
    }

    private static string Line(int day, YearSums sums, IYearWay way)
    {
        const double MB = 1024 * 1024;
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Forced, blocking: true, compacting: true);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {day} | {sums.Rows:N0} | {sums.Stays:N0} | {sums.Findings:N0} | {sums.Rows / sums.Judged.TotalSeconds:N0} | {sums.Picked / sums.Judged:N3} | {GC.GetTotalMemory(forceFullCollection: true) / MB:N1} | {Environment.WorkingSet / MB:N0} | {way.BytesOnDisk / MB:N0} |");
    }
}
