using System.Security.Cryptography;

namespace AirwayGuard.Fhir.Client;

/// <summary>Randomness of waits, handed in so that a simulator can own it.</summary>
/// <param name="next">Gives numbers from 0 to below 1; called from any thread.</param>
public sealed class Jitter(Func<double> next)
{
    /// <summary>Numbers nobody can foresee, safe for concurrent use.</summary>
    public static Jitter Unseeded() => new(static () => RandomNumberGenerator.GetInt32(int.MaxValue) / (double)int.MaxValue);

    public double Next() => next();
}
