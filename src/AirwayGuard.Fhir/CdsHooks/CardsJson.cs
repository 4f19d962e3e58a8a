using System.Buffers;
using System.Collections.Immutable;
using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Writes an answer (CDS Hooks 2.0, "CDS Service Response"). No member is null or empty, but the list of cards may be. Nothing is ever done by the client unasked: there are no system actions.</summary>
public static class CardsJson
{
    /// <summary>A summary has fewer characters than this.</summary>
    public const int SummaryUnder = 140;

    /// <exception cref="ArgumentException">A card lacks what the standard requires, or its summary is too long; nothing is written then.</exception>
    public static void Write(IReadOnlyList<Card> cards, IBufferWriter<byte> into)
    {
        ArgumentNullException.ThrowIfNull(cards);
        foreach (var card in cards)
        {
            Check(card);
        }

        using var json = new Utf8JsonWriter(into);
        json.WriteStartObject();
        json.WriteStartArray("cards"u8);
        foreach (var card in cards)
        {
            Write(card, json);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Check(Card card)
    {
        Need.Text(card.Summary, "summary");
        if (card.Summary.Length >= SummaryUnder)
        {
            throw new ArgumentException("A summary has too many characters.", nameof(card));
        }

        Need.Text(card.Source.Label, "source.label");
        foreach (var suggestion in Need.Items(card.Suggestions))
        {
            Need.Text(suggestion.Label, "suggestion.label");
            Need.Text(suggestion.Description, "action.description");
            CheckResource(suggestion.Resource);
        }

        foreach (var reason in Need.Items(card.OverrideReasons))
        {
            Need.Text(reason.Code, "overrideReasons.code");
            Need.Text(reason.Display, "overrideReasons.display");
        }
    }

    // Written as it is: anything else than one object would break the answer.
    private static void CheckResource(ReadOnlyMemory<byte> resource)
    {
        if (resource.Span is not [(byte)'{', ..] || JsonBody.Read(resource, (ref JsonCursor cursor) => cursor.Skip()) is not null)
        {
            throw new ArgumentException("action.resource is no JSON object.", nameof(resource));
        }
    }

    private static void Write(Card card, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("uuid"u8, card.Id);
        json.WriteString("summary"u8, card.Summary);
        Need.WriteFilled(json, "detail"u8, card.Detail);
        json.WriteString("indicator"u8, card.Indicator switch
        {
            CardIndicator.Info => "info"u8,
            CardIndicator.Warning => "warning"u8,
            _ => throw new ArgumentOutOfRangeException(nameof(card)),
        });
        WriteSource(card.Source, json);
        WriteSuggestions(card.Suggestions, json);
        WriteReasons(card.OverrideReasons, json);
        json.WriteEndObject();
    }

    private static void WriteSource(CardSource source, Utf8JsonWriter json)
    {
        json.WriteStartObject("source"u8);
        json.WriteString("label"u8, source.Label);
        Need.WriteFilled(json, "url"u8, source.Url);
        if (source.Topic is { Code.Length: > 0 } topic)
        {
            json.WritePropertyName("topic"u8);
            WriteCoding(topic, json);
        }

        json.WriteEndObject();
    }

    private static void WriteSuggestions(ImmutableArray<CardSuggestion> suggestions, Utf8JsonWriter json)
    {
        if (suggestions.IsDefaultOrEmpty)
        {
            return;
        }

        json.WriteStartArray("suggestions"u8);
        foreach (var suggestion in suggestions)
        {
            json.WriteStartObject();
            json.WriteString("label"u8, suggestion.Label);
            json.WriteString("uuid"u8, suggestion.Id);
            json.WriteStartArray("actions"u8);
            json.WriteStartObject();
            json.WriteString("type"u8, "update"u8);
            json.WriteString("description"u8, suggestion.Description);
            json.WritePropertyName("resource"u8);
            json.WriteRawValue(suggestion.Resource.Span, skipInputValidation: true);
            json.WriteEndObject();
            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("selectionBehavior"u8, "at-most-one"u8);
    }

    private static void WriteReasons(ImmutableArray<CardCoding> reasons, Utf8JsonWriter json)
    {
        if (reasons.IsDefaultOrEmpty)
        {
            return;
        }

        json.WriteStartArray("overrideReasons"u8);
        foreach (var reason in reasons)
        {
            WriteCoding(reason, json);
        }

        json.WriteEndArray();
    }

    private static void WriteCoding(CardCoding coding, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("code"u8, coding.Code);
        Need.WriteFilled(json, "system"u8, coding.System);
        Need.WriteFilled(json, "display"u8, coding.Display);
        json.WriteEndObject();
    }
}
