using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.Host.Service;

/// <summary>
/// What becomes of steps that throw: a bug or a dead link is told each time; a disk without room, which all of them meet, once, and once
/// when there is room again; a ledger whose file is damaged or may not be written to, as that. Safe for concurrent use.
/// </summary>
internal sealed partial class StepTroubles(IntakeHealth health, ILogger<StepTroubles> logger)
{
    /// <summary>Its place among what stands.</summary>
    public const string Folder = "data folder";

    private readonly Lock _gate = new();
    private readonly Dictionary<string, int> _failures = new(StringComparer.Ordinal);
    private readonly HashSet<string> _withoutRoom = new(StringComparer.Ordinal);

    /// <summary>Some step found no room and has not run since.</summary>
    public bool IsFull
    {
        get
        {
            lock (_gate)
            {
                return _withoutRoom.Count > 0;
            }
        }
    }

    /// <returns>How many times in a row the step has failed.</returns>
    public int Failed(string step, Exception trouble)
    {
        lock (_gate)
        {
            var times = _failures[step] = _failures.GetValueOrDefault(step) + 1;
            if (DiskFull.IsMeantBy(trouble))
            {
                _withoutRoom.Add(step);
                if (health.Report(Folder, Codes.DataFolderFull))
                {
                    LogFull(logger, Codes.DataFolderFull.Id, Codes.DataFolderFull.Advice);
                }
            }
            else if (LedgerFile.TroubleOf(trouble) is { } problem)
            {
                health.Report(Place(step), problem.Code);
                LogLedger(logger, problem.Code.Id, step, times, problem.Why, problem.Code.Advice);
            }
            else
            {
                health.Report(Place(step), Codes.StepFailed);
                LogStep(logger, Codes.StepFailed.Id, step, trouble.GetType().Name, times);
            }

            return times;
        }
    }

    public void Ran(string step)
    {
        lock (_gate)
        {
            if (!_failures.Remove(step))
            {
                return;
            }

            health.ClearBut(Place(step), []);
            if (_withoutRoom.Remove(step) && _withoutRoom.Count == 0)
            {
                health.Clear(Folder, Codes.DataFolderFull);
                LogRoom(logger, Codes.DataFolderFull.Id);
            }
        }
    }

    private static string Place(string step) => "step " + step;

    [LoggerMessage(1001, LogLevel.Error, "{Code}: step {Step} failed with {Kind}, {Times} times in a row; it is tried again")]
    private static partial void LogStep(ILogger logger, string code, string step, string kind, int times);

    [LoggerMessage(1005, LogLevel.Error, "{Code}: step {Step} failed {Times} times in a row. {Why} {Advice}")]
    private static partial void LogLedger(ILogger logger, string code, string step, int times, string why, string advice);

    [LoggerMessage(1002, LogLevel.Error, "{Code}: the data folder has no room. {Advice}")]
    private static partial void LogFull(ILogger logger, string code, string advice);

    [LoggerMessage(1003, LogLevel.Information, "{Code} is over: the data folder has room again, and what waited goes on")]
    private static partial void LogRoom(ILogger logger, string code);
}
