using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Reflection;

namespace AirwayGuard.Rules;

/// <summary>The rule sets that come with the service, read from the assembly.</summary>
public static class ShippedRuleSets
{
    /// <summary>The set used where none is named.</summary>
    public const string Default = "strict-ranges";

    /// <summary>All of them, the default first.</summary>
    public static readonly ImmutableArray<string> Names = [Default, "guideline-2022"];

    private static readonly ConcurrentDictionary<string, RuleSetReading> Read = new(StringComparer.Ordinal);

    /// <summary>Reads a set once; who asks again is given the same, which nobody can change.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    /// <exception cref="ArgumentException">It is none of them.</exception>
    public static RuleSetReading Load(string name) => Read.GetOrAdd(name, static one => RuleSetReader.Read(Bytes(one), one));

    /// <summary>The document as it is shipped, to be copied and adapted to local policy.</summary>
    /// <exception cref="ArgumentException">The name is none of <see cref="Names"/>.</exception>
    public static ReadOnlyMemory<byte> Bytes(string name)
    {
        if (!Names.Contains(name, StringComparer.Ordinal))
        {
            throw new ArgumentException($"Shipped rule sets: {string.Join(", ", Names)}.", nameof(name));
        }

        using var resource = Assembly.GetExecutingAssembly().GetManifestResourceStream($"AirwayGuard.Rules.RuleSets.{name}.yaml")
            ?? throw new InvalidOperationException($"The assembly lacks the rule set {name}.");
        var bytes = new byte[resource.Length];
        resource.ReadExactly(bytes);
        return bytes;
    }
}
