namespace AirwayGuard.TestKit.Simulation;

/// <summary>
/// Runs the service over its real ledger and real FHIR client against the sandbox, in virtual time, under a schedule that a seed
/// owns; then once more without faults, and once from the server's end alone, and holds the three against each other.
/// </summary>
public static class Simulator
{
    private const int Turns = 700;

    /// <param name="seed">Of charting and schedule: the same seed, the same run.</param>
    /// <param name="sabotage">Of the run with faults only.</param>
    /// <exception cref="InvalidOperationException">The simulator itself is at fault: the run is not one that can be repeated.</exception>
    public static async Task<SimulationOutcome> RunAsync(int seed, Sabotage sabotage = Sabotage.None)
    {
        using var folder = new SimulationFolder();
        var plan = ChartingPlan.Draw(seed);
        using var straight = new SimulatedRun(plan, seed, folder.Sub("straight"), schedule: null);
        await straight.BeQuietAsync();
        var expected = await RecordedFinding.AllAsync(straight.Ledger, plan.Patients);
        var broken = new List<string>();
        broken.AddRange((await FaultsAsync(straight, expected)).Select(fault => "Without faults: " + fault));
        await straight.EndAsync();

        var schedule = new Schedule(seed);
        using var run = new SimulatedRun(plan, seed, folder.Sub("scheduled"), schedule, sabotage);
        await run.FollowScheduleAsync(Turns);
        await run.BeQuietAsync();
        var recorded = await RecordedFinding.AllAsync(run.Ledger, plan.Patients);
        var hand = new HandScope(run.Server.Hands.Marks, expected, recorded);
        broken.AddRange(await FaultsAsync(run, recorded));
        broken.AddRange(FindingsComparison.Differences(recorded, expected, "without faults", hand, ignoreClosing: false));
        broken.AddRange(WrittenChecks.Differences(run.Server.Contents, straight.Server.Contents, hand));

        var (refusedByFence, refusedByDisk) = (run.RefusedByFence, run.RefusedByDisk);
        await run.StartAnewAsync(folder.Sub("anew"));
        var atOnce = await RecordedFinding.AllAsync(run.Ledger, plan.Patients);
        broken.AddRange(FindingsComparison.Differences(recorded, atOnce, "judged at once", hand, ignoreClosing: true));
        await run.EndAsync();
        return new SimulationOutcome(
            seed, schedule.Lines, [.. recorded.Values.OrderBy(one => one.Key).Select(one => one.ToString())], broken, schedule.Faults, schedule.Ends)
        {
            RefusedByFence = refusedByFence, RefusedByDisk = refusedByDisk, PersonsActs = run.Server.Hands.Marks.Count,
        };
    }

    private static async Task<IReadOnlyList<string>> FaultsAsync(SimulatedRun run, IReadOnlyDictionary<Guid, RecordedFinding> recorded) =>
        [
            .. run.Troubles, .. await ArrivalChecks.FaultsAsync(run.Ledger, run.Server.Contents, run.Plan.Patients, run.Heads),
            .. WrittenChecks.Faults(run.Server.Contents, recorded, run.HasTwoWriters, run.HasRaced), .. run.Server.Hands.Faults(),
        ];
}
