using System.Globalization;

namespace AirwayGuard.Host.DemoWard;

/// <summary>The ward's 48 h as whole minutes from their start. Minute 2880 is their end.</summary>
internal sealed class WardClock
{
    public const int Minutes = 48 * 60;

    /// <summary>Offset at which the ward's staff chart.</summary>
    public static readonly TimeSpan HospitalOffset = TimeSpan.FromHours(2);

    /// <param name="end">End of the 48 h; cut to its minute.</param>
    public WardClock(DateTimeOffset end)
    {
        End = new DateTimeOffset(end.UtcTicks - (end.UtcTicks % TimeSpan.TicksPerMinute), TimeSpan.Zero);
        Start = End.AddMinutes(-Minutes);
    }

    public DateTimeOffset Start { get; }

    public DateTimeOffset End { get; }

    /// <summary>Calendar date of the end where the ward is.</summary>
    public DateOnly EndDate => DateOnly.FromDateTime(End.ToOffset(HospitalOffset).DateTime);

    /// <summary>A minute of the 48 h as a FHIR dateTime at the hospital's offset, or at +00:00 as the monitors' feed writes it.</summary>
    public string Written(int minute, bool byMonitor = false) =>
        Start.AddMinutes(minute).ToOffset(byMonitor ? TimeSpan.Zero : HospitalOffset).ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);

    /// <summary>A minute as it stands in a column's key, in UTC.</summary>
    public string Key(int minute) => Start.AddMinutes(minute).ToString("yyyyMMdd'T'HHmm", CultureInfo.InvariantCulture);
}
