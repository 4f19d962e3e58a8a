using System.Collections.Immutable;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>What a client's set holds under a kid.</summary>
/// <param name="Keys">Usually one; more where several keys bear the name (RFC 7517 §4.5). Empty where the kid is not there.</param>
/// <param name="IsRead">False where the set could not be read and what was read before does not hold the kid, or is too old.</param>
internal readonly record struct KeyAnswer(ImmutableArray<HookKey> Keys, bool IsRead)
{
    public static KeyAnswer Unread { get; } = new([], false);

    public static KeyAnswer Of(ImmutableArray<HookKey> set, string kid, string algorithm, DateTimeOffset now) =>
        new([.. set.Where(key => key.IsThere(kid, algorithm, now))], true);
}
