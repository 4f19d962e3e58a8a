using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Sending;

/// <summary>
/// Tells that messages have waited for long though the server answers what it is asked: one that reads and takes no writes, or too few. A
/// server that does not answer is told by itself, and so is what is set aside.
/// </summary>
/// <param name="sends">Whether anything is sent at all.</param>
public sealed partial class UnsentStep(
    ILedger ledger, Unsent unsent, Func<bool> sends, IntakeHealth health, ServerContact contact, TimeProvider clock, ILogger<UnsentStep> logger) : IStep
{
    /// <summary>Its place among what stands.</summary>
    public const string Place = "outbox";

    private static readonly TimeSpan Every = TimeSpan.FromSeconds(10);

    // Longer than the tries that a message has before it is set aside, by the settings shipped.
    private static readonly TimeSpan Long = TimeSpan.FromMinutes(5);

    // At the start of a run, from the server's first answer on: each message is tried within a minute.
    private static readonly TimeSpan Chance = TimeSpan.FromMinutes(1);

    private DateTimeOffset _next;
    private DateTimeOffset _tellsFrom;
    private DateTimeOffset _silentUntil = DateTimeOffset.MinValue;

    public string Name => "unsent";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (!sends() || now < _next)
        {
            return StepResult.Idle;
        }

        _next = now + Every;
        _silentUntil = contact.Silence is null ? _silentUntil : now;
        _tellsFrom = contact.HasAnswered ? _tellsFrom : now + Chance;
        var before = unsent.Told;
        unsent.Look(await ledger.StateAsync(stop), now, since => now >= _tellsFrom && now - (since > _silentUntil ? since : _silentUntil) >= Long);
        if (unsent.Told is { } told)
        {
            if (health.Report(Place, Codes.Unsent))
            {
                LogUnsent(logger, Codes.Unsent.Id, told.ToString());
            }
        }
        else if (health.Clear(Place, Codes.Unsent))
        {
            LogOver(logger, Codes.Unsent.Id, (long)Math.Max(0, (now - (before?.Since ?? now)).TotalSeconds), HowOver());
        }

        return StepResult.Idle;
    }

    private string HowOver() => unsent.Oldest is null ? "nothing waits" : contact.Silence is null ? "what waits now has not waited for long" : "the server does not answer at all now";

    [LoggerMessage(5002, LogLevel.Warning, "{Code}: {Unsent}. Nothing is lost: they are tried again until the server takes them")]
    private static partial void LogUnsent(ILogger logger, string code, string unsent);

    [LoggerMessage(5003, LogLevel.Information, "{Code} is over after {Seconds} s: {How}")]
    private static partial void LogOver(ILogger logger, string code, long seconds, string how);
}
