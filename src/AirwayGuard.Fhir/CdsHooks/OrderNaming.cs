using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Whether the element that names what is ordered is there in a form that R4 does not have: nobody can then tell whether suction is ordered.</summary>
public static class OrderNaming
{
    /// <param name="order">Well-formed UTF-8 JSON.</param>
    /// <param name="type">Of the order; others than ServiceRequest and DeviceRequest have none.</param>
    public static bool IsOfAWrongForm(ReadOnlyMemory<byte> order, string type)
    {
        if (type is not ("ServiceRequest" or "DeviceRequest"))
        {
            return false;
        }

        var json = new Utf8JsonReader(order.Span);
        json.Read();
        while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
        {
            // R4 names equipment by codeCodeableConcept or codeReference; code alone is of a later release.
            var (isCode, isChoice) = (json.ValueTextEquals("code"u8), json.ValueTextEquals("codeCodeableConcept"u8));
            json.Read();
            if ((isCode && (type == "DeviceRequest" || !IsConcept(json))) || (isChoice && !IsConcept(json)))
            {
                return true;
            }

            json.Skip();
        }

        return false;
    }

    // A copy walks it: the caller skips the whole.
    private static bool IsConcept(Utf8JsonReader json)
    {
        if (json.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
        {
            if (json.ValueTextEquals("coding"u8) || json.ValueTextEquals("text"u8))
            {
                return true;
            }

            json.Read();
            json.Skip();
        }

        return false;
    }
}
