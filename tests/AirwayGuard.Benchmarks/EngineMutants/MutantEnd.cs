namespace AirwayGuard.Benchmarks.EngineMutants;

/// <summary>What became of a mutant.</summary>
internal enum MutantEndKind : byte
{
    Caught,
    Survived,

    /// <summary>Its passage is not there once, or it does not compile.</summary>
    Faulty,
}

/// <param name="By">The test that failed, or the fault.</param>
internal sealed record MutantEnd(MutantEndKind Kind, string By)
{
    public string Say() => Kind switch
    {
        MutantEndKind.Caught => $"caught by {By}",
        MutantEndKind.Survived => "SURVIVED",
        _ => $"FAULT OF THE LIST: {By}",
    };
}
