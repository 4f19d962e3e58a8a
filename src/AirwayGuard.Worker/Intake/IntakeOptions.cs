using System.ComponentModel.DataAnnotations;

namespace AirwayGuard.Worker.Intake;

/// <summary>How the server is asked. Section <c>AirwayGuard:Intake</c>.</summary>
public sealed class IntakeOptions
{
    public const string Section = "AirwayGuard:Intake";

    /// <summary>Seconds between quick sweeps without a notice. Default 30, range 1 to 3600.</summary>
    [Range(1, 3600)]
    public int QuickSeconds { get; set; } = 30;

    /// <summary>Seconds between wide sweeps, which look back the overlap regardless of notices. Default 300, range 10 to 86400.</summary>
    [Range(10, 86_400)]
    public int WideSeconds { get; set; } = 300;

    /// <summary>
    /// Seconds a wide sweep looks back; at least as long as the server hides rows until they are committed. Default 300, range 0 to
    /// 86400.
    /// </summary>
    [Range(0, 86_400)]
    public int OverlapSeconds { get; set; } = 300;

    /// <summary>Resources asked for a page. Default 500, range 1 to 1000.</summary>
    [Range(1, 1000)]
    public int PageSize { get; set; } = 500;

    /// <summary>Seconds to wait after the server did not answer. Default 5, range 1 to 600.</summary>
    [Range(1, 600)]
    public int BackOffSeconds { get; set; } = 5;

    /// <summary>Longest wait, in seconds, that a server may ask for (Retry-After); a longer one is cut to it, and that is told. Default 600, range 1 to 3600.</summary>
    [Range(1, 3600)]
    public int LongestWaitSeconds { get; set; } = 600;

    /// <summary>Least seconds between two quick sweeps of one question that notices pull forward. Default 1, range 0 to 300.</summary>
    [Range(0, 300)]
    public int NoticeGapSeconds { get; set; } = 1;

    /// <summary>Seconds a Subscription may stay requested before that is told. Default 300, range 10 to 86400.</summary>
    [Range(10, 86_400)]
    public int ActivationSeconds { get; set; } = 300;

    /// <summary>Status a new Subscription is sent with: <c>requested</c>, or <c>active</c> for servers that never activate one.</summary>
    [AllowedValues("requested", "active", ErrorMessage = "it takes requested or active")]
    public string SubscriptionStatus { get; set; } = "requested";
}
