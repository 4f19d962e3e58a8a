using System.Globalization;
using System.Text.Json;
using AirwayGuard.Core.Orders;

namespace AirwayGuard.Core.Tests.Orders;

/// <summary>How often a field was read rightly, wrongly, or not.</summary>
internal readonly record struct FieldScore(int Right, int Wrong, int Missed);

/// <summary>
/// Holds what the reader takes from labelled orders against their labels. A field that a label marks as open is left out; so is a whole
/// text whose number of orders is open. An order of no suction counts false for none: only a ban is a negation.
/// </summary>
internal static class OrderScore
{
    public static Dictionary<string, FieldScore> Of(string file)
    {
        var scores = InWords.Fields.ToDictionary(field => field, _ => default(FieldScore), StringComparer.Ordinal);
        foreach (var line in File.ReadLines(file))
        {
            using var order = JsonDocument.Parse(line);
            var open = order.RootElement.TryGetProperty("openFields", out var named)
                ? named.EnumerateArray().Select(one => one.GetString()!).ToHashSet(StringComparer.Ordinal)
                : [];
            if (!open.Contains("parts"))
            {
                Count(order.RootElement, open, scores);
            }
        }

        return scores;
    }

    /// <summary>Texts of which one of the fields was read otherwise than labelled, with what was read.</summary>
    public static IEnumerable<string> Wrong(string file, IReadOnlyCollection<string> fields)
    {
        foreach (var line in File.ReadLines(file))
        {
            using var order = JsonDocument.Parse(line);
            var open = order.RootElement.GetProperty("openFields").EnumerateArray().Select(one => one.GetString()!).ToHashSet(StringComparer.Ordinal);
            var scores = InWords.Fields.ToDictionary(field => field, _ => default(FieldScore), StringComparer.Ordinal);
            if (!open.Contains("parts"))
            {
                Count(order.RootElement, open, scores);
            }

            var wrong = fields.Where(field => scores[field].Wrong > 0).ToList();
            if (wrong.Count > 0)
            {
                yield return $"{order.RootElement.GetProperty("text").GetString()}: {string.Join(' ', wrong)}";
            }
        }
    }

    private static void Count(JsonElement order, HashSet<string> open, Dictionary<string, FieldScore> scores)
    {
        var labels = order.GetProperty("orders").EnumerateArray().ToList();
        var parts = OrderTextReader.Read(order.GetProperty("text").GetString()!, order.TryGetProperty("coded", out var coded) && coded.GetBoolean()).Parts;
        for (var i = 0; i < Math.Max(labels.Count, parts.Count); i++)
        {
            foreach (var field in InWords.Fields.Where(field => !open.Contains(field)))
            {
                var label = i < labels.Count ? Label(labels[i], field) : null;
                var read = i < parts.Count ? InWords.Of(parts[i], field) : null;
                if (field == "doNotSuction")
                {
                    (label, read) = (label == "false" ? null : label, read == "false" ? null : read);
                }

                var (right, wrong, missed) = scores[field];
                scores[field] = read == label
                    ? new FieldScore(right + (label is null ? 0 : 1), wrong, missed)
                    : new FieldScore(right, wrong + (read is null ? 0 : 1), missed + (label is null ? 0 : 1));
            }
        }
    }

    private static string? Label(JsonElement order, string field)
    {
        var value = order.GetProperty(field);
        return value.ValueKind switch
        {
            JsonValueKind.Null => null,
            JsonValueKind.True => "true",
            JsonValueKind.False => "false",
            JsonValueKind.Number => Number(value),
            JsonValueKind.Object => Number(value.GetProperty("cm")) + " cm",
            _ => value.GetString(),
        };
    }

    private static string Number(JsonElement value) => value.GetDecimal().ToString("0.######", CultureInfo.InvariantCulture);
}
