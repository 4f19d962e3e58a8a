using System.Globalization;

namespace AirwayGuard.TestKit.Kills;

/// <summary>What a run of kills came to.</summary>
/// <param name="Schedule">Each life of the service, in a line.</param>
/// <param name="Broken">Promises that did not hold; empty if all did.</param>
public sealed record KillOutcome(KillSettings Settings, IReadOnlyList<string> Schedule, IReadOnlyList<string> Broken)
{
    /// <summary>It was stopped before its end: what stands in the ledger was held against nothing.</summary>
    public bool IsCutOff { get; init; }

    /// <summary>Versions and deletions that were charted.</summary>
    public int Rows { get; init; }

    /// <summary>Resources of ours that a person did something to.</summary>
    public int PersonsActs { get; init; }

    /// <summary>Occurrences and spells recorded in the end.</summary>
    public int Findings { get; init; }

    /// <summary>Times that fell due.</summary>
    public int DueTimes { get; init; }

    /// <summary>Kills by what the service had last committed before: kept, a finding, sent, …</summary>
    public IReadOnlyDictionary<string, int> LastDone { get; init; } = new Dictionary<string, int>(StringComparer.Ordinal);

    public bool Held => Broken.Count == 0;

    /// <summary>One line.</summary>
    public string Sum => IsCutOff
        ? string.Create(
            CultureInfo.InvariantCulture,
            $"seed {Settings.Seed}, cut off after {Schedule.Count} of {Settings.Kills} kills: {Rows} rows, {PersonsActs} persons' acts, {Broken.Count} troubles seen; findings were not compared")
        : string.Create(
        CultureInfo.InvariantCulture,
        $"{Settings.Kills} kills, {Rows} rows, {PersonsActs} persons' acts, {Findings} findings, {DueTimes} due times, {Broken.Count} promises broken");

    /// <summary>All of it, for somebody who has to find out why.</summary>
    public string Describe() => string.Join('\n', [$"Seed {Settings.Seed}:", .. Schedule, "Broken:", .. Broken]);

    public override string ToString() => Sum;
}
