using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>A document's tree together with what it starts from: one that states only what differs becomes one that states all.</summary>
/// <param name="Root">Null where the document holds nothing.</param>
/// <param name="Origins">As <see cref="RuleSetReading.Origins"/>.</param>
internal sealed record WholeDocument(Node? Root, IReadOnlyDictionary<string, string> Origins)
{
    /// <summary>The key that names what a document starts from.</summary>
    public const string From = "from";

    private static readonly string[] Label = ["name", "version"];

    private static readonly IReadOnlyDictionary<string, string> NoOrigins = ImmutableDictionary<string, string>.Empty;

    /// <summary>What it starts from, the nearest first.</summary>
    public ImmutableArray<string> StartsFrom { get; private init; } = [];

    /// <summary>It starts from another, so that what it says is not all there is.</summary>
    public bool IsMerged => !StartsFrom.IsEmpty;

    /// <returns>Null with faults where it cannot be read.</returns>
    public static WholeDocument? Read(ReadOnlyMemory<byte> utf8, Faults faults, BaseSource bases)
    {
        if (!DocumentText.TryDecode(utf8.Span, faults, out var text))
        {
            return null;
        }

        var events = EventCheck.Run(text, faults);
        if (faults.Any)
        {
            return null;
        }

        var root = NodeTree.Build(events, faults);
        if (root is not MapNode map || map.Entries.FirstOrDefault(static entry => entry.Key == From) is not { } from)
        {
            return new WholeDocument(root, NoOrigins);
        }

        if (from.Value is not TextNode { IsBlank: false } name)
        {
            faults.Add(Codes.RuleSetShapeWrong, from.Value.At, $"from is {(from.Value is TextNode ? "empty" : from.Value.Shape)}.", "Write the name of a shipped rule set, or of a file beside this one.");
            return null;
        }

        if (bases.Find(name, faults) is not { } found)
        {
            return null;
        }

        var (merged, origins) = DocumentMerge.Of(map, from.At, found, faults);
        return new WholeDocument(merged, origins) { StartsFrom = [name.Text.Trim(), .. found.StartsFrom] };
    }

    /// <summary>Name and version, as far as they are there.</summary>
    public static string LabelOf(MapNode root) =>
        string.Join(' ', Label.Select(key => (root.Entries.FirstOrDefault(entry => entry.Key == key)?.Value as TextNode)?.Text ?? "").Where(text => text.Length > 0));
}
