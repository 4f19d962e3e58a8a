namespace AirwayGuard.Worker.Backlog;

/// <summary>What the service has measured of itself since it was started.</summary>
public sealed class Paces
{
    public ReadingProgress Reading { get; } = new();

    /// <summary>Charts judged.</summary>
    public Pace Judging { get; } = new();

    /// <summary>Messages sent.</summary>
    public Pace Sending { get; } = new();
}
