using System.Buffers;
using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Worker.Questions;

/// <summary>What is kept of a card, so that what a person says of it can be looked into: what it said, of what, by which facts. Patient data.</summary>
internal static class CardContent
{
    public static string Of(OrderBreach breach, QuestionChart chart) => Written((breach, chart), static (json, card) =>
    {
        var occurrence = card.breach.Occurrence;
        json.WriteString("band"u8, Wording.Band(occurrence.Band));
        json.WriteString("limit"u8, Wording.Limit(occurrence.Limit));
        json.WriteStartArray("orders"u8);
        foreach (var order in card.breach.About)
        {
            json.WriteStringValue(card.chart.NameOf(order));
        }

        json.WriteEndArray();
        json.WriteStartArray("restsOn"u8);
        foreach (var fact in card.breach.Facts)
        {
            json.WriteStartObject();
            json.WriteString("concept"u8, fact.Concept.Code);
            json.WriteString("from"u8, card.chart.NameOf(fact.Row));
            if (fact.Id.Arrival < QuestionChart.First)
            {
                json.WriteNumber("position"u8, fact.Id.Arrival.Value);
            }
            else
            {
                json.WriteNull("position"u8);
            }

            json.WriteString("value"u8, FactWords.Of(fact.Value));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("say"u8, Wording.Say(card.breach.Rule, occurrence));
    });

    public static string Of(IEnumerable<DerivedCannotTell> open) => Written(open, static (json, left) =>
    {
        json.WriteStartArray("notJudged"u8);
        foreach (var one in left)
        {
            json.WriteStartObject();
            json.WriteString("check"u8, one.Rule.Id);
            json.WriteStartArray("missing"u8);
            foreach (var missing in one.Missing)
            {
                json.WriteStringValue(MissingWords.Of(missing));
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    });

    /// <summary>One JSON object, its members written by the caller.</summary>
    public static string Written<T>(T from, Action<Utf8JsonWriter, T> write)
    {
        var into = new ArrayBufferWriter<byte>(512);
        using var json = new Utf8JsonWriter(into);
        json.WriteStartObject();
        write(json, from);
        json.WriteEndObject();
        json.Flush();
        return Encoding.UTF8.GetString(into.WrittenSpan);
    }
}
