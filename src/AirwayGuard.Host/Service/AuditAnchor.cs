using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Service;

/// <summary>Every five minutes and at stop writes the head of the audit chain where the ledger's owner does not keep it: a log line.</summary>
internal sealed partial class AuditAnchor(ILedger ledger, TimeProvider clock, ILogger<AuditAnchor> logger) : IStep
{
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(5);

    private DateTimeOffset _next;

    public string Name => "anchor";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (now < _next)
        {
            return StepResult.Idle;
        }

        _next = now + Every;
        await AnchorAsync(stop);
        return StepResult.DidWork;
    }

    /// <summary>Writes the head now.</summary>
    public async ValueTask AnchorAsync(CancellationToken stop)
    {
        var head = await ledger.AuditAsync([new AuditNote("anchored", "audit", "{}", default)], clock.GetUtcNow(), stop);
        LogAnchor(logger, head.Chain, head.Number, head.Hash);
    }

    [LoggerMessage(6001, LogLevel.Information, "Audit anchor: chain {Chain} entry {Number} hash {Hash}")]
    private static partial void LogAnchor(ILogger logger, long chain, long number, string hash);
}
