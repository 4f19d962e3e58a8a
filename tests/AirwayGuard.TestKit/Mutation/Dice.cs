namespace AirwayGuard.TestKit.Mutation;

/// <summary>Chance from a seed, the same on every machine and runtime (SplitMix64: Steele, Lea and Flood, OOPSLA 2014; constants from memory).</summary>
internal sealed class Dice(ulong seed)
{
    private ulong _state = seed;

    public ulong Next()
    {
        _state += 0x9E3779B97F4A7C15;
        var mixed = (_state ^ (_state >> 30)) * 0xBF58476D1CE4E5B9;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
        return mixed ^ (mixed >> 31);
    }

    /// <summary>From 0 to below <paramref name="below"/>; 0 where that is less than 1.</summary>
    public int Next(int below) => below < 1 ? 0 : (int)(((Next() >> 32) * (ulong)below) >> 32);

    public bool Once(int outOf) => Next(outOf) == 0;

    public T OneOf<T>(IReadOnlyList<T> choices) => choices[Next(choices.Count)];
}
