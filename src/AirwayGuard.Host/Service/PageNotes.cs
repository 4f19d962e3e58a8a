using AirwayGuard.Worker.Backlog;

namespace AirwayGuard.Host.Service;

/// <summary>Why the list of the page may not be complete now, in sentences; none where it is.</summary>
internal static class PageNotes
{
    public static IReadOnlyList<string> Of(ServiceState state, BacklogState backlog)
    {
        var incomplete = state.IsReady ? "" : state.IsAsked ? "What was there is not all judged yet: this list is not complete."
            : "The server has not been asked for everything yet: this list is not complete.";
        return incomplete.Length == 0 && !backlog.IsBehind ? []
            : incomplete.Length == 0 ? [$"Behind, so this list is not complete: {BacklogWords.Of(backlog)}."]
            : [incomplete, $"The service is {BacklogWords.Of(backlog)}."];
    }
}
