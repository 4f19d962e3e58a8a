using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Harness;

namespace AirwayGuard.Benchmarks.Intake;

/// <summary>From arrivals that were read to committed findings, beside raw durable appends of the same rows in groups of the same size.</summary>
internal sealed class IntakeBenchmark : IBenchmark
{
    private const int Patients = 20, DefaultRows = 9_600, LateSessions = 20;

    public string Name => "intake";

    public async Task RunAsync(RunOptions options, ResultTable table)
    {
        var sessions = Math.Clamp((options.Rows ?? DefaultRows) / (Patients * Stay.RowsPerSession), 20, Stay.Sessions);
        var standings = await new Contest()
            .AddRound("raw durable appends (baseline)", () => AppendAsync(Patients, sessions, 0))
            .AddRound("KeepAsync", () => KeepAsync(sessions, judgesAtEnd: false, judgesEachGroup: false))
            .AddRound("KeepAsync, then judging each patient once", () => KeepAsync(sessions, judgesAtEnd: true, judgesEachGroup: false))
            .AddRound("KeepAsync, judging each patient after each group", () => KeepAsync(sessions, judgesAtEnd: true, judgesEachGroup: true))
            .RunAsync(options.Rounds);
        table.Add($"{Name}, {Patients} patients, {sessions} groups of {Patients * Stay.RowsPerSession} rows", "row", standings);

        var late = await new Contest()
            .AddRound("raw durable append (baseline)", () => AppendAsync(1, Stay.Sessions, Stay.Sessions - LateSessions))
            .AddRound("KeepAsync and judging to the committed decision", LateAsync)
            .RunAsync(options.Rounds);
        table.Add($"{Name} of one session into a stay of {Stay.Sessions - LateSessions} to {Stay.Sessions}", "session", late.Select(standing => standing.Per(Stay.RowsPerSession)));
    }

    /// <param name="uncounted">Sessions that are there before the measurement.</param>
    private static async Task<Cost> AppendAsync(int patients, int sessions, int uncounted)
    {
        await using var ward = await Ward.OpenAsync();
        var groups = ward.Read(patients, sessions);
        using var folder = new ScratchFolder();
        using var inbox = new RawInbox(folder.Path);
        groups.Take(uncounted + 1).ToList().ForEach(inbox.Append);
        return Cost.Of(() =>
        {
            var rows = 0L;
            foreach (var group in groups.Skip(uncounted + 1))
            {
                inbox.Append(group);
                rows += group.Count;
            }

            return rows;
        });
    }

    private static async Task<Cost> KeepAsync(int sessions, bool judgesAtEnd, bool judgesEachGroup)
    {
        await using var ward = await Ward.OpenAsync();
        var groups = ward.Read(Patients, sessions);
        await ward.KeepAsync(groups[0]);
        var cost = await Cost.OfAsync(async () =>
        {
            var rows = 0L;
            foreach (var group in groups.Skip(1))
            {
                await ward.KeepAsync(group);
                rows += group.Count;
                if (judgesEachGroup)
                {
                    await ward.JudgeAsync();
                }
            }

            if (judgesAtEnd)
            {
                await ward.JudgeAsync();
            }

            return rows;
        });
        if (judgesAtEnd)
        {
            await ward.MustHaveFoundAsync(Patients);
        }

        return cost;
    }

    private static async Task<Cost> LateAsync()
    {
        await using var ward = await Ward.OpenAsync();
        var groups = ward.Read(1, Stay.Sessions);
        foreach (var group in groups.SkipLast(LateSessions))
        {
            await ward.KeepAsync(group);
        }

        await ward.JudgeAsync();
        var cost = await Cost.OfAsync(async () =>
        {
            var rows = 0L;
            foreach (var group in groups.TakeLast(LateSessions))
            {
                await ward.KeepAsync(group);
                await ward.JudgeAsync();
                rows += group.Count;
            }

            return rows;
        });
        await ward.MustHaveFoundAsync(1);
        return cost;
    }
}
