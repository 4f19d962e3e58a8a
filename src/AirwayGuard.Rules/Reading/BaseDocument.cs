using System.Collections.Immutable;

namespace AirwayGuard.Rules.Reading;

/// <summary>A document that another starts from, with everything it starts from itself.</summary>
/// <param name="Label">Its name and version, for what is said of where a limit comes from.</param>
/// <param name="Root">Of the whole document.</param>
/// <param name="Origins">As <see cref="RuleSetReading.Origins"/>.</param>
internal sealed record BaseDocument(string Label, MapNode Root, IReadOnlyDictionary<string, string> Origins, ImmutableArray<string> StartsFrom);
