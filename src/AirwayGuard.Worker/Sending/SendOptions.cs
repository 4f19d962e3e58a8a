using System.ComponentModel.DataAnnotations;

namespace AirwayGuard.Worker.Sending;

/// <summary>How outgoing messages are tried. Section <c>AirwayGuard:WriteBack</c>.</summary>
public sealed class SendOptions
{
    public const string Section = "AirwayGuard:WriteBack";

    /// <summary>Attempts per outgoing write before it is parked; a server that is away for everybody does not use them up. Default 6, range 1 to 20.</summary>
    [Range(1, 20)]
    public int MaxAttempts { get; set; } = 6;

    /// <summary>Seconds before the second attempt; doubled each time. Default 2, range 1 to 600.</summary>
    [Range(1, 600)]
    public int FirstDelaySeconds { get; set; } = 2;

    /// <summary>Seconds a claim on a message lasts. Default 60, range 5 to 3600.</summary>
    [Range(5, 3600)]
    public int LeaseSeconds { get; set; } = 60;
}
