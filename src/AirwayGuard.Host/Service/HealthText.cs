using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Sending;

namespace AirwayGuard.Host.Service;

/// <summary>What <c>/health/ready</c> says below its status, a line each.</summary>
internal static class HealthText
{
    /// <param name="silence">Null while the server answers.</param>
    /// <param name="isFull">The data folder has no room.</param>
    /// <param name="unsent">Null while nothing waits for long to be sent.</param>
    /// <param name="open">Null while no question is left without an answer for long.</param>
    public static IReadOnlyList<string> Degraded(ServerSilence? silence, OpenQuestions? open, bool isFull, UnsentNote? unsent) =>
    [
        .. silence is null ? Array.Empty<string>() : [$"degraded: {silence}"],
        .. open is null ? Array.Empty<string>() : [$"degraded: {open}"],
        .. isFull ? ["degraded: the data folder has no room; nothing is lost, and nothing new is kept or judged until there is some"] : Array.Empty<string>(),
        .. unsent is null ? Array.Empty<string>() : [$"degraded: {unsent}"],
    ];

    /// <summary>Once it was ready: "ready", or how it is degraded, then what a person has to look at, by code.</summary>
    public static string Ready(IReadOnlyList<string> degraded, BacklogState backlog, IReadOnlyList<(string Where, string Code)> troubles, IReadOnlyList<(string Code, int Count)> parked) =>
        string.Join('\n',
        [
            .. degraded.Count == 0 ? ["ready"] : degraded,
            .. backlog.IsBehind ? [BacklogWords.Of(backlog)] : Array.Empty<string>(),
            .. troubles.Select(one => $"{one.Code} {one.Where}"),
            .. parked.Select(one => $"{one.Code} parked: {one.Count}"),
        ]);

    /// <summary>Before.</summary>
    public static string NotReady(ServiceState state, IReadOnlyList<string> degraded, BacklogState backlog) =>
        string.Join('\n',
        [
            state.IsAsked ? "judging what was there when the server had been asked for everything" : "asking the server for everything for the first time since the start",
            .. degraded,
            BacklogWords.Of(backlog),
        ]);
}
