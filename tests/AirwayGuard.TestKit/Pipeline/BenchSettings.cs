using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.TestKit.Habits;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Sending;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>What a site can configure, and which server stands there.</summary>
public sealed class BenchSettings
{
    public FhirSinkOptions Sink { get; } = new();

    public IntakeOptions Intake { get; } = new();

    public SendOptions Send { get; } = new();

    /// <summary>Asks for deletions and makes Subscriptions, as the service does. Default false: the sweep of searches alone.</summary>
    public bool IsWhole { get; set; }

    /// <summary>What becomes of the server's notices.</summary>
    public NoticeHabit Notices { get; set; }

    /// <summary>The server's other habits, outermost first, given its clock.</summary>
    public Func<TimeProvider, IEnumerable<DelegatingHandler>> Habits { get; set; } = static _ => [];
}
