using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Intake;

/// <summary>What the sweep tells of its questions and of what it read, each once.</summary>
internal sealed partial class SweepVoice(IntakeHealth health, ServerContact contact, ReadingTally tally, ILogger logger)
{
    /// <param name="page">Holds nothing but its problem.</param>
    /// <param name="questions">Everything that is asked.</param>
    public void Unanswered(string query, SourcePage page, Problem problem, IReadOnlyList<string> questions, DateTimeOffset now)
    {
        // A refusal of one question is told of that question; one of all of them is an outage. What the server never offered is no
        // sign of either, and is told once it answers.
        if (page.IsOffered || page.Status is not null)
        {
            contact.Unanswered(query, problem, questions, isForAll: page is { IsOffered: true, RetryAfter: not null }, now, page.Status, page.WasAsked);
        }
        else if (contact.Silence is null)
        {
            Tell(query, problem.Code, problem.Why);
        }
    }

    public void Answered(string query, DateTimeOffset now)
    {
        foreach (var (unanswered, problem) in contact.Answered(now, query))
        {
            Log(unanswered, problem.Code, problem.Why);
        }
    }

    public void Tell(string query, DiagnosticCode code, string why)
    {
        if (health.Report(query, code))
        {
            Log(query, code, why);
        }
    }

    /// <summary>One line for each type and code of a page: a row is told by its type, never by its name.</summary>
    public void TellBatch(IEnumerable<(string Type, DiagnosticCode Code)> met)
    {
        foreach (var (type, code, count) in tally.Add(met))
        {
            LogProblem(logger, code.Id, type, count, code.Title);
        }
    }

    private void Log(string query, DiagnosticCode code, string why) =>
        LogTrouble(logger, code.Id, query, why.Length == 0 || why == code.Title ? code.Title : $"{code.Title} ({why})");

    [LoggerMessage(4001, LogLevel.Warning, "{Code} in the sweep of {Query}: {Title}")]
    private static partial void LogTrouble(ILogger logger, string code, string query, string title);

    [LoggerMessage(4002, LogLevel.Information, "{Code} in reading {Type}, {Count} of one page: {Title}")]
    private static partial void LogProblem(ILogger logger, string code, string type, int count, string title);
}
