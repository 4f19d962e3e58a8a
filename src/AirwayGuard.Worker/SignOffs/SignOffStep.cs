using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.SignOffs;

/// <summary>Takes up what persons sign off while the service runs.</summary>
/// <param name="takeUp">Puts in force what the ledger says by now.</param>
public sealed partial class SignOffStep(SignOffMail mail, SignOffDesk desk, Func<CancellationToken, ValueTask> takeUp, TimeProvider clock, ILogger<SignOffStep> logger) : IStep
{
    /// <summary>The verb waits half a minute for its answer: what waits longer nobody waits for.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);

    public string Name => "sign-offs";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        foreach (var (id, request) in mail.Waiting())
        {
            var answer = request is null
                ? SignOffAnswer.Refused(Codes.SignOffUnreadable, "sign-offs", "the request could not be read")
                : (clock.GetUtcNow() - request.Posted).Duration() > Longest ? SignOffAnswer.Refused(Codes.SignOffNotTaken, "sign-offs", "the request is older than two minutes, and nobody waits for its answer")
                : await desk.ApplyAsync(request, stop);
            if (answer.Problem is null)
            {
                await takeUp(stop);
                LogDone(logger, answer.Said);
            }
            else
            {
                LogRefused(logger, answer.Problem.Code.Id, answer.Problem.Why);
            }

            mail.Send(id, answer);
        }

        return StepResult.Idle;
    }

    [LoggerMessage(4601, LogLevel.Information, "Sign-off: {Said}")]
    private static partial void LogDone(ILogger logger, string said);

    [LoggerMessage(4602, LogLevel.Warning, "{Code}: a sign-off was refused: {Why}")]
    private static partial void LogRefused(ILogger logger, string code, string why);
}
