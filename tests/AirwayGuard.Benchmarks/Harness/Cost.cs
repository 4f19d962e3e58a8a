using System.Diagnostics;

namespace AirwayGuard.Benchmarks.Harness;

/// <summary>What some work cost.</summary>
/// <param name="Units">Rows, sessions or whatever was worked on.</param>
/// <param name="Cpu">CPU time of the whole process, user and system.</param>
/// <param name="Wall">Time on the clock; says little on a machine shared with others.</param>
/// <param name="Bytes">Bytes allocated by all threads.</param>
internal readonly record struct Cost(long Units, TimeSpan Cpu, TimeSpan Wall, long Bytes)
{
    public double UnitsPerCpuSecond => Units / Cpu.TotalSeconds;

    public double MicrosecondsPerUnit => Cpu.TotalMicroseconds / Units;

    public double WallMicrosecondsPerUnit => Wall.TotalMicroseconds / Units;

    public double BytesPerUnit => (double)Bytes / Units;

    /// <summary>Costs work on this thread, whose allocation is counted exactly.</summary>
    /// <param name="work">Returns how many units it did.</param>
    public static Cost Of(Func<long> work)
    {
        var (bytes, cpu, clock) = (GC.GetAllocatedBytesForCurrentThread(), Environment.CpuUsage.TotalTime, Stopwatch.GetTimestamp());
        var units = work();
        return new Cost(units, Environment.CpuUsage.TotalTime - cpu, Stopwatch.GetElapsedTime(clock), GC.GetAllocatedBytesForCurrentThread() - bytes);
    }

    /// <summary>Costs work that other threads share in.</summary>
    /// <param name="work">Returns how many units it did.</param>
    public static async Task<Cost> OfAsync(Func<Task<long>> work)
    {
        var (bytes, cpu, clock) = (GC.GetTotalAllocatedBytes(precise: true), Environment.CpuUsage.TotalTime, Stopwatch.GetTimestamp());
        var units = await work();
        return new Cost(units, Environment.CpuUsage.TotalTime - cpu, Stopwatch.GetElapsedTime(clock), GC.GetTotalAllocatedBytes(precise: true) - bytes);
    }
}
