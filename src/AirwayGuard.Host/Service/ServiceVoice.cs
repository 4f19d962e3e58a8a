using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Commands;

namespace AirwayGuard.Host.Service;

/// <summary>Where the service speaks to the person who started it: what stands on one, everything else on the other.</summary>
internal sealed record ServiceVoice(TextWriter Output, TextWriter Errors)
{
    /// <summary>One line: code, place, reason, advice.</summary>
    public Task TellAsync(Problem problem) =>
        Errors.WriteLineAsync(ProblemLine.Of(problem));
}
