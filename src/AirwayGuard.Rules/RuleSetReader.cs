using System.Security.Cryptography;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules;

/// <summary>Reads a rule-set document of schema version 1. It never throws for what a document holds.</summary>
public static class RuleSetReader
{
    /// <param name="utf8">The document's bytes, at most 1 MB; their SHA-256 becomes the set's.</param>
    /// <param name="fileName">The name that faults carry.</param>
    public static RuleSetReading Read(ReadOnlyMemory<byte> utf8, string fileName)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        var faults = new Faults(fileName);
        var notes = new Faults(fileName);
        var (title, ruleSet) = ("", (RuleSet?)null);
        if (DocumentText.TryDecode(utf8.Span, faults, out var text))
        {
            var events = EventCheck.Run(text, faults);
            if (!faults.Any)
            {
                var root = NodeTree.Build(events, faults);
                (title, ruleSet) = RuleSetBuilder.Build(root, faults, notes, Convert.ToHexStringLower(SHA256.HashData(utf8.Span)));
            }
        }

        return new RuleSetReading(fileName, title, faults.Any ? null : ruleSet, faults.InOrder()) { Document = utf8, Notes = notes.InOrder() };
    }
}
