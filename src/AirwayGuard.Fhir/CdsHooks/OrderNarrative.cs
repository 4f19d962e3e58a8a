using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Whether an order is told in words besides (R4 DomainResource.text).</summary>
public static class OrderNarrative
{
    /// <param name="order">UTF-8 JSON; what is no object has none.</param>
    public static bool IsThere(ReadOnlyMemory<byte> order)
    {
        try
        {
            var reader = new Utf8JsonReader(order.Span);
            reader.Read();
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var isText = reader.ValueTextEquals("text"u8);
                reader.Read();
                if (isText && reader.TokenType == JsonTokenType.StartObject)
                {
                    return true;
                }

                reader.Skip();
            }
        }
        catch (JsonException)
        {
            // Whoever reads it says what is wrong.
            return false;
        }

        return false;
    }
}
