using System.Collections.Immutable;

namespace AirwayGuard.Core.Judging;

/// <summary>A named, versioned set of rules; its hash is that of the document it was read from.</summary>
/// <param name="Sha256">Lower-case hex.</param>
/// <param name="Sources">What the limits' source ids stand for.</param>
public sealed record RuleSet(string Name, string Version, string Sha256, ImmutableArray<Rule> Rules, ImmutableArray<Source> Sources)
{
    public Rule? Find(string id) => Rules.FirstOrDefault(rule => string.Equals(rule.Id, id, StringComparison.Ordinal));
}

/// <summary>A publication a limit rests on.</summary>
public sealed record Source(string Id, string Title);
