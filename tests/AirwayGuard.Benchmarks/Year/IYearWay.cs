using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>A way of judging what is charted, day by day.</summary>
internal interface IYearWay : IAsyncDisposable
{
    /// <summary>Bytes on disk; 0 where nothing is kept there.</summary>
    long BytesOnDisk { get; }

    /// <summary>Reads and keeps what is charted at one bed in one day.</summary>
    Task KeepAsync(BedDay day, IReadOnlyList<Arrival> rows);

    /// <summary>Judges every patient of the day whole.</summary>
    /// <returns>What stands found of the stays that end with it.</returns>
    Task<int> JudgeAsync(IReadOnlyList<BedDay> beds);
}
