using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.Host.Service;

/// <summary>
/// Whether the ledger can be trusted. Once it is met damaged, or is not at its place any more, nothing that the service says of it is worth
/// anything: it is not ready from then on, says why, and ends with an exit code other than 0. Safe for concurrent use.
/// </summary>
internal sealed partial class LedgerTrust(ILedger ledger, ServiceState state, IntakeHealth health, IHostApplicationLifetime lifetime, TimeProvider clock, ILogger<LedgerTrust> logger) : IStep
{
    /// <summary>Its place among what stands.</summary>
    public const string Place = "ledger";

    private static readonly TimeSpan Every = TimeSpan.FromSeconds(5);

    private Problem? _lost;
    private DateTimeOffset _next;

    public string Name => "ledger's place";

    /// <summary>Why it is not trusted any more; null while it is.</summary>
    public Problem? Lost => Volatile.Read(ref _lost);

    /// <summary>Looks whether the ledger is where it was opened.</summary>
    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (now >= _next)
        {
            _next = now + Every;
            if (await ledger.PlaceAsync(stop) is { } problem)
            {
                Lose(problem);
            }
        }

        return StepResult.Idle;
    }

    /// <returns>Whether the failure says that the ledger is damaged.</returns>
    public bool IsLostBy(Exception trouble)
    {
        if (!LedgerFile.IsDamageMeantBy(trouble))
        {
            return false;
        }

        Lose(LedgerFile.TroubleOf(trouble)!);
        return true;
    }

    private void Lose(Problem problem)
    {
        if (Interlocked.CompareExchange(ref _lost, problem, null) is not null)
        {
            return;
        }

        state.HasFailed = true;
        health.Report(Place, problem.Code);
        LogLost(logger, problem.Code.Id, problem.Why, problem.Code.Advice);
        lifetime.StopApplication();
    }

    [LoggerMessage(1006, LogLevel.Critical, "{Code}: {Why} Nothing that stands in it is trusted, and the service ends. {Advice}")]
    private static partial void LogLost(ILogger logger, string code, string why, string advice);
}
