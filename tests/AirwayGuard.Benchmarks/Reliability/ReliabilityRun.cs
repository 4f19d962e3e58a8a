using System.Globalization;
using System.Text.Json.Nodes;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>Server, service and this program in three processes; each figure beside a baseline of the same run at the same server.</summary>
internal sealed class ReliabilityRun(ReliabilityOptions options, TextWriter output)
{
    private const int AtOnce = 4, Warm = 200;
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(5), LongestFlag = TimeSpan.FromMinutes(1);

    private static TimeProvider Clock => MachineClock.Instance;

    public async Task RunAsync()
    {
        await output.WriteLineAsync("| measure | came to |\n|---|---|");
        await ArrivalsAsync();
        await FlagsAsync();
        await RecoveryAsync();
        var audit = await AuditShare.MeasureAsync();
        await TellAsync("cost of auditing", $"{audit.Share:P1} of the CPU time of keeping and judging ({audit.Low:P1} to {audit.High:P1}): {audit.Entries} entries over {audit.Rows} rows");
    }

    private async Task ArrivalsAsync()
    {
        using var server = await SandboxProcess.StartAsync();
        using var folder = new ScratchFolder();
        using var charting = new Charting(server.Address);
        var patients = await PatientsAsync(charting, "a", options.Patients);
        var (plain, rows) = (Passes(patients, options.Rows, Clock.GetUtcNow().AddDays(-2)), Passes(patients, options.Rows, Clock.GetUtcNow().AddDays(-1)));
        await charting.RowsAsync(Passes(["nobody"], Warm, Clock.GetUtcNow().AddDays(-3)), AtOnce);
        var post = await TimeAsync(() => charting.RowsAsync(plain, AtOnce));

        await using var service = await WatchedService.StartAsync(Place(server, folder));
        var before = await service.FoundAsync(patients, "pass-too-long");
        var took = await TimeAsync(async () =>
        {
            await charting.RowsAsync(rows, AtOnce);
            await service.CaughtUpAsync(async () => await service.FoundAsync(patients, "pass-too-long") == before + rows.Count, isSent: false);
        });
        var (posted, found) = (plain.Count / post.TotalSeconds, rows.Count / took.TotalSeconds);
        await TellAsync("sustained arrivals to committed findings", $"{found:F0} a second ({rows.Count} rows of {patients.Count} patients, a finding each; {took.TotalSeconds:F1} s), {found / posted:F2} of the plain POST rate there ({posted:F0} a second, {AtOnce} at once)");
    }

    private async Task FlagsAsync()
    {
        using var server = await SandboxProcess.StartAsync();
        using var folder = new ScratchFolder();
        using var charting = new Charting(server.Address);
        var patients = await PatientsAsync(charting, "f", options.Flags);
        var plain = new Latencies();
        var flags = new Latencies();
        // Only a notice asks for a row before the run is over.
        await using var service = await WatchedService.StartAsync(Place(server, folder) with { More = ["--AirwayGuard:Intake:QuickSeconds=3600", "--AirwayGuard:Intake:WideSeconds=3600"] });
        await Task.Delay(TimeSpan.FromSeconds(3), Clock);
        foreach (var patient in patients)
        {
            var row = Charting.Saturation("nobody", Clock.GetUtcNow());
            plain.Add(await TimeAsync(() => charting.RowAsync(row)));
            await Task.Delay(TimeSpan.FromSeconds(1), Clock);
            var began = Clock.GetTimestamp();
            await charting.RowAsync(Charting.HighVacuum(patient, Clock.GetUtcNow()));
            await FlagAsync(charting, server.Address, patient, began);
            flags.Add(Clock.GetElapsedTime(began));
        }

        await TellAsync("notice to Flag on the server", $"p50 {flags.MedianMs:F0} ms, p95 {flags.NinetyFifthMs:F0} ms over {flags.Count}, from sending the row; {flags.MedianMs / plain.MedianMs:F1} and {flags.NinetyFifthMs / plain.NinetyFifthMs:F1} times a plain create there (p50 {plain.MedianMs:F1} ms, p95 {plain.NinetyFifthMs:F1} ms)");
    }

    private async Task RecoveryAsync()
    {
        using var server = await SandboxProcess.StartAsync();
        using var folder = new ScratchFolder();
        using var charting = new Charting(server.Address);
        var patients = await PatientsAsync(charting, "r", options.Patients);
        var place = Place(server, folder) with { More = ["--AirwayGuard:Intake:PageSize=500"] };
        await (await WatchedService.StartAsync(place)).DisposeAsync();

        // Eight hours of vital signs, and a pass too long in a hundred rows.
        var began = Clock.GetUtcNow().AddHours(-8);
        var rows = Enumerable.Range(0, options.Missed).Select(i => (i % 100 == 0 ? (Func<string, DateTimeOffset, string>)Charting.LongPass : Charting.Saturation)(
            patients[i / 100 % patients.Count], began + (TimeSpan.FromHours(8) * ((double)i / options.Missed)))).ToList();
        var post = await TimeAsync(() => charting.RowsAsync(rows, AtOnce));
        var passes = rows.Count(row => row.Contains("pass-duration", StringComparison.Ordinal));
        var took = await TimeAsync(async () =>
        {
            await using var service = await WatchedService.StartAsync(place);
            await service.CaughtUpAsync(async () => await service.FoundAsync(patients, "pass-too-long") == passes, isSent: true);
        });
        var share = 100_000.0 / options.Missed;
        await TellAsync("recovery per 100,000 missed rows", $"{took.TotalSeconds * share:F0} s (measured: {options.Missed} rows in {took.TotalSeconds:F1} s, start of the process, judging and sending included), {took / post:F2} of the time of POSTing them there ({post.TotalSeconds:F1} s, {AtOnce} at once)");
    }

    private static async Task FlagAsync(Charting charting, Uri server, string patient, long began)
    {
        while (Clock.GetElapsedTime(began) < LongestFlag)
        {
            var bundle = JsonNode.Parse(await charting.Http.GetStringAsync(new Uri($"{server}/Flag?subject=Patient/{patient}&_summary=count")))!;
            if ((int?)bundle["total"] > 0)
            {
                return;
            }

            await Task.Delay(Look, Clock);
        }

        throw new InvalidOperationException("No Flag came within a minute.");
    }

    private static async Task<IReadOnlyList<string>> PatientsAsync(Charting charting, string prefix, int count)
    {
        var patients = Enumerable.Range(0, count).Select(i => string.Create(CultureInfo.InvariantCulture, $"{prefix}{i}")).Append("nobody").ToList();
        foreach (var patient in patients)
        {
            await charting.PatientAsync(patient);
        }

        return patients[..^1];
    }

    private static List<string> Passes(IReadOnlyList<string> patients, int count, DateTimeOffset from) =>
        [.. Enumerable.Range(0, count).Select(i => Charting.LongPass(patients[i % patients.Count], from.AddMinutes(10 * (i / patients.Count))))];

    private ServicePlace Place(SandboxProcess server, ScratchFolder folder) => new(options.Service, server.Address, folder.Path, ServiceProcess.FreePort(), IsLive: true);

    private static async Task<TimeSpan> TimeAsync(Func<Task> work)
    {
        var began = Clock.GetTimestamp();
        await work();
        return Clock.GetElapsedTime(began);
    }

    private async Task TellAsync(string measure, FormattableString cameTo)
    {
        await output.WriteLineAsync($"| {measure} | {cameTo.ToString(CultureInfo.InvariantCulture)} |");
        await output.FlushAsync();
    }
}
