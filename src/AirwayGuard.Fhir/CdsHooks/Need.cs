using System.Collections.Immutable;
using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>What the standard says of members: those required are filled, and the others are filled or left out.</summary>
internal static class Need
{
    /// <exception cref="ArgumentException">There is no text: a mistake of whoever made it.</exception>
    public static void Text(string? text, string member)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            throw new ArgumentException($"{member} is required.", nameof(text));
        }
    }

    public static ImmutableArray<T> Items<T>(ImmutableArray<T> items) => items.IsDefault ? [] : items;

    public static void WriteFilled(Utf8JsonWriter json, ReadOnlySpan<byte> member, string? text)
    {
        if (!string.IsNullOrEmpty(text))
        {
            json.WriteString(member, text);
        }
    }
}
