namespace AirwayGuard.Core.Ports;

/// <summary>A rule set's document, byte for byte.</summary>
/// <param name="Sha256">Of the document, lower-case hex; the rule set's own.</param>
public sealed record RuleDocument(string Sha256, ReadOnlyMemory<byte> Utf8)
{
    /// <summary>Says its hash only.</summary>
    public override string ToString() => $"RuleDocument({Sha256})";
}
