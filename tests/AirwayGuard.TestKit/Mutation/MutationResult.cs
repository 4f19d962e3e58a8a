namespace AirwayGuard.TestKit.Mutation;

/// <summary>One input put through what reads it.</summary>
/// <param name="Work">Bytes allocated meanwhile: counts work without a clock, since whatever loops here makes something.</param>
/// <param name="Allowed">The most it may have been, for the input's kind and length.</param>
/// <param name="Fault">What was broken; null for nothing.</param>
public sealed record MutationResult(long Seed, string Kind, string Ending, ReadOnlyMemory<byte> Input, long Work, long Allowed, string? Fault)
{
    /// <summary>Says kind and seed only.</summary>
    public override string ToString() => FormattableString.Invariant($"{Kind} of seed {Seed}: {Fault ?? "held"}");
}
