using System.Collections.Immutable;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>How urgent a card is. No card of ours is critical: none is an alarm.</summary>
public enum CardIndicator : byte
{
    Info,
    Warning,
}

/// <summary>A card (CDS Hooks 2.0, "Card Attributes").</summary>
/// <param name="Summary">One sentence, under 140 characters.</param>
/// <param name="Detail">GitHub-flavoured Markdown; what was charted is escaped in it.</param>
public sealed record Card(
    Guid Id,
    string Summary,
    CardIndicator Indicator,
    string Detail,
    CardSource Source,
    ImmutableArray<CardSuggestion> Suggestions,
    ImmutableArray<CardCoding> OverrideReasons)
{
    /// <summary>Says its id only.</summary>
    public override string ToString() => $"Card({Id})";
}

/// <summary>Whose policy a card speaks for.</summary>
/// <param name="Url">Where the policy can be read; null where none is configured.</param>
/// <param name="Topic">The check.</param>
public sealed record CardSource(string Label, string? Url, CardCoding? Topic);

public sealed record CardCoding(string System, string Code, string Display);

/// <summary>A changed order that a person may take instead of the one drafted: one update action.</summary>
/// <param name="Resource">The whole resource as drafted, with one element changed; UTF-8 JSON.</param>
public sealed record CardSuggestion(Guid Id, string Label, string Description, ReadOnlyMemory<byte> Resource)
{
    /// <summary>Says its id only.</summary>
    public override string ToString() => $"CardSuggestion({Id})";
}
