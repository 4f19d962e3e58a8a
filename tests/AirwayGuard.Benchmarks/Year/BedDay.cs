using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>What is charted at one bed in one day.</summary>
/// <param name="Bed">From 0.</param>
/// <param name="Day">Of the stay, from 0.</param>
internal sealed record BedDay(int Bed, FullStay Stay, int Day)
{
    public bool IsFirst => Day == 0;

    public bool IsLast => Day + 1 == Stay.Days;

    /// <summary>When the day ends.</summary>
    public DateTimeOffset Ends => Stay.Begins.AddDays(Day + 1);

    public List<Arrival> Rows()
    {
        List<Arrival> rows = IsFirst ? [.. Stay.Admission()] : [];
        rows.AddRange(Stay.Day(Day));
        if (IsLast)
        {
            rows.Add(Stay.Discharge());
        }

        return rows;
    }
}
