using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Backlog;

/// <summary>Says in the log that the service is behind, each minute while it is and the server answers, and once when it has caught up.</summary>
public sealed partial class BacklogStep(BacklogReader reader, TimeProvider clock, ILogger<BacklogStep> logger, ServerContact? contact = null) : IStep
{
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(1);

    private DateTimeOffset _next;
    private bool _told;

    public string Name => "backlog";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (now < _next)
        {
            return StepResult.Idle;
        }

        _next = now + Every;
        if (contact?.Silence is not null)
        {
            // Told by itself, once: nothing can be caught up meanwhile.
            return StepResult.Idle;
        }

        var backlog = await reader.ReadAsync(stop);
        if (backlog.IsBehind)
        {
            _told = true;
            LogBehind(logger, Codes.Behind.Id, BacklogWords.Of(backlog));
        }
        else if (_told)
        {
            _told = false;
            LogCaughtUp(logger, Codes.Behind.Id);
        }

        return StepResult.Idle;
    }

    [LoggerMessage(4201, LogLevel.Warning, "{Code}: {Backlog}")]
    private static partial void LogBehind(ILogger logger, string code, string backlog);

    [LoggerMessage(4202, LogLevel.Information, "{Code} is over: caught up")]
    private static partial void LogCaughtUp(ILogger logger, string code);
}
