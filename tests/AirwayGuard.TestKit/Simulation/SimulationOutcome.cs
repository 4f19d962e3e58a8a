using System.Globalization;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>What a simulated run came to.</summary>
/// <param name="Schedule">What happened, line by line; invented ids only.</param>
/// <param name="Findings">What was recorded in the end, a line each.</param>
/// <param name="Broken">Promises that did not hold; empty if all did.</param>
/// <param name="Faults">Calls to the server that went wrong.</param>
/// <param name="Ends">Ends of the process.</param>
public sealed record SimulationOutcome(
    int Seed, IReadOnlyList<string> Schedule, IReadOnlyList<string> Findings, IReadOnlyList<string> Broken, int Faults, int Ends)
{
    /// <summary>Decisions and receipts refused because their claim had run out.</summary>
    public int RefusedByFence { get; init; }

    /// <summary>Commits that found the disk full.</summary>
    public int RefusedByDisk { get; init; }

    /// <summary>Resources of ours that a person did something to.</summary>
    public int PersonsActs { get; init; }

    public bool Held => Broken.Count == 0;

    /// <summary>All of it, for somebody who has to find out why.</summary>
    public string Describe() => string.Join(
        '\n',
        [
            string.Create(CultureInfo.InvariantCulture, $"Seed {Seed}: {Broken.Count} promises broken, {Faults} faults, {Ends} ends of the process"),
            .. Schedule, "Findings:", .. Findings, "Broken:", .. Broken,
        ]);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"Seed {Seed}, {Broken.Count} broken");
}
