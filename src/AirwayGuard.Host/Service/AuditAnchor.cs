using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Anchoring;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Host.Service;

/// <summary>
/// Every five minutes and at stop puts the head of the audit chain where the ledger's owner does not keep it: a log line, and, where
/// findings are written to the server, an AuditEvent there. An anchor that did not arrive is tried again until a newer one vouches
/// for what it vouched for.
/// </summary>
internal sealed partial class AuditAnchor(BasisInForce basis, ILedger ledger, AuditAnchorStore store, TimeProvider clock, ILogger<AuditAnchor> logger) : IStep, IDisposable
{
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(5), TryAgain = TimeSpan.FromSeconds(30), LongestEnd = TimeSpan.FromSeconds(5);

    private readonly SemaphoreSlim _one = new(1, 1);
    private DateTimeOffset _next;
    private DateTimeOffset _again;
    private (AuditHead Head, DateTimeOffset At)? _unwritten;
    private DiagnosticCode? _told;

    public string Name => "anchor";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (now >= _next)
        {
            _next = now + Every;
            await AnchorAsync(stop);
            return StepResult.DidWork;
        }

        if (_unwritten is null || now < _again)
        {
            return StepResult.Idle;
        }

        await _one.WaitAsync(stop);
        try
        {
            await WriteAsync(stop);
        }
        finally
        {
            _one.Release();
        }

        return StepResult.DidWork;
    }

    /// <summary>Anchors the head now.</summary>
    public ValueTask AnchorAsync(CancellationToken stop) => AnchorAsync(basis.Current.Speaks, stop);

    /// <summary>The last anchor, when nothing works any more. It never holds up the end for long; what came too late stays in the log.</summary>
    /// <param name="answers">Whether the server may still answer; the demo's own ends before the service.</param>
    public async Task EndAsync(bool answers)
    {
        using var limit = new CancellationTokenSource(LongestEnd, clock);
        try
        {
            await AnchorAsync(answers && basis.Current.Speaks, limit.Token);
        }
        catch (OperationCanceledException) when (limit.IsCancellationRequested)
        {
            LogUnwritten(logger, Codes.AnchorNotWritten.Id, Codes.NoAnswer.Id);
        }
    }

    public void Dispose() => _one.Dispose();

    private async ValueTask AnchorAsync(bool isServerTold, CancellationToken stop)
    {
        await _one.WaitAsync(stop);
        try
        {
            var now = clock.GetUtcNow();
            var head = await ledger.AuditAsync([new AuditNote("anchored", "audit", "{}", default)], now, stop);
            LogAnchor(logger, head.Chain, head.Number, head.Hash);
            // Silent means that nothing leaves: the log line is the anchor then.
            if (isServerTold)
            {
                _unwritten = (head, now);
                await WriteAsync(stop);
            }
        }
        finally
        {
            _one.Release();
        }
    }

    private async ValueTask WriteAsync(CancellationToken stop)
    {
        var (head, at) = _unwritten!.Value;
        var trouble = await store.WriteAsync(head, at, stop);
        _again = clock.GetUtcNow() + TryAgain;
        _unwritten = trouble is null ? null : _unwritten;
        if (trouble is not null && trouble != _told)
        {
            LogUnwritten(logger, Codes.AnchorNotWritten.Id, trouble.Id);
        }

        _told = trouble;
    }

    [LoggerMessage(6001, LogLevel.Information, "Audit anchor: chain {Chain} entry {Number} hash {Hash}")]
    private static partial void LogAnchor(ILogger logger, long chain, long number, string hash);

    [LoggerMessage(6002, LogLevel.Warning, "{Code}: the server did not take an audit anchor ({Reason}); the log line stands, and it is tried again")]
    private static partial void LogUnwritten(ILogger logger, string code, string reason);
}
