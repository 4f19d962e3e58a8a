using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules;

/// <summary>Reads a rule-set document of schema version 1. It never throws for what a document holds.</summary>
public static class RuleSetReader
{
    /// <param name="utf8">The document's bytes, at most 1 MB; their SHA-256 becomes the set's, or that of the whole where it starts from another.</param>
    /// <param name="fileName">The name that faults carry.</param>
    public static RuleSetReading Read(ReadOnlyMemory<byte> utf8, string fileName) => Read(utf8, fileName, BaseSource.Shipped);

    /// <param name="bases">Where what the document starts from is looked for.</param>
    /// <inheritdoc cref="Read(ReadOnlyMemory{byte}, string)"/>
    internal static RuleSetReading Read(ReadOnlyMemory<byte> utf8, string fileName, BaseSource bases)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        var faults = new Faults(fileName);
        var notes = new Faults(fileName);
        if (WholeDocument.Read(utf8, faults, bases) is not { } whole)
        {
            return new RuleSetReading(fileName, "", null, faults.InOrder()) { Document = utf8 };
        }

        // What is kept for good must not depend on a base that the next release words anew.
        var document = whole.IsMerged ? Encoding.UTF8.GetBytes(FlatText.Of(whole.Root!)) : utf8;
        var (title, ruleSet) = RuleSetBuilder.Build(whole.Root, faults, notes, Convert.ToHexStringLower(SHA256.HashData(document.Span)));
        return new RuleSetReading(fileName, title, faults.Any ? null : ruleSet, faults.InOrder())
        {
            Document = document, Notes = notes.InOrder(), Origins = whole.Origins, RuleTexts = TextsOf(whole.Root), StartsFrom = whole.StartsFrom,
        };
    }

    private static Dictionary<string, string> TextsOf(Node? root)
    {
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        var rules = (root as MapNode)?.Entries.FirstOrDefault(static entry => entry.Key == "rules")?.Value as ListNode;
        foreach (var rule in (rules?.Items ?? []).OfType<MapNode>())
        {
            if (DocumentMerge.IdOf(rule) is { } id)
            {
                texts.TryAdd(id, FlatText.Of(rule));
            }
        }

        return texts;
    }
}
