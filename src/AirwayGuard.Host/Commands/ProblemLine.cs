using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Commands;

/// <summary>A problem as one line for a person: code, place, reason, advice.</summary>
internal static class ProblemLine
{
    public static string Of(Problem problem) => problem.AsLine();
}
