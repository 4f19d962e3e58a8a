using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Commands;

namespace AirwayGuard.Host.Service;

/// <summary>Where the service speaks to the person who started it: what stands on one, everything else on the other.</summary>
internal sealed record ServiceVoice(TextWriter Output, TextWriter Errors)
{
    /// <summary>A person reads it as it comes. What was charted is told to nobody else: a file or a system's journal is read by others.</summary>
    public bool IsToATerminal { get; init; }

    /// <summary>One line: code, place, reason, advice.</summary>
    public Task TellAsync(Problem problem) =>
        Errors.WriteLineAsync(ProblemLine.Of(problem));
}
