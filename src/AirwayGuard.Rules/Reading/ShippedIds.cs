using System.Collections.Immutable;
using System.Text;

namespace AirwayGuard.Rules.Reading;

/// <summary>Ids of the checks of the shipped sets, taken from their text: their reading asks for them itself.</summary>
internal static class ShippedIds
{
    private const string Key = "- id: ";

    private static readonly Lazy<ImmutableHashSet<string>> Read = new(static () =>
        [
            .. ShippedRuleSets.Names
                .SelectMany(name => Encoding.UTF8.GetString(ShippedRuleSets.Bytes(name).Span).Split('\n'))
                .Select(line => line.Trim())
                .Where(line => line.StartsWith(Key, StringComparison.Ordinal))
                .Select(line => line[Key.Length..]),
        ]);

    public static ImmutableHashSet<string> All => Read.Value;
}
