using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Storage;

/// <summary>The ledger cannot be opened or used, for a reason that a person can mend.</summary>
public sealed class LedgerException : Exception
{
    public LedgerException(Problem problem)
        : base($"{problem.Code}: {problem.Why} {problem.Code.Advice}") => Problem = problem;

    public LedgerException(Problem problem, Exception inner)
        : base($"{problem.Code}: {problem.Why} {problem.Code.Advice}", inner) => Problem = problem;

    public Problem Problem { get; }
}
