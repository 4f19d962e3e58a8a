using System.Text.Json;
using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Worker.Checking;

/// <summary>An estimate as the optional member <c>estimate</c> of a finding; its names are public and final.</summary>
internal static class EstimateJson
{
    /// <summary>Goes with every estimate.</summary>
    public const string Note = "A rough estimate from benches with a clean tube off the ventilator. It is no limit, and no verdict rests on it.";

    /// <param name="estimate">Null writes nothing.</param>
    public static void Write(Utf8JsonWriter json, PressureEstimate? estimate)
    {
        if (estimate is null)
        {
            return;
        }

        json.WriteStartObject("estimate");
        json.WriteString("of", "pressure in the trachea below atmosphere");
        json.WritePropertyName("about");
        if (estimate.About is { } about)
        {
            json.WriteRawValue(Wording.Rounded(about, 1));
        }
        else
        {
            json.WriteNullValue();
        }

        json.WritePropertyName("low");
        json.WriteRawValue(Wording.Rounded(estimate.Low, 1));
        json.WritePropertyName("high");
        json.WriteRawValue(Wording.Rounded(estimate.High, 1));
        json.WriteString("unit", Units.Ucum(PressureEstimate.Unit));
        json.WriteStartArray("sources");
        foreach (var source in PressureEstimate.Sources)
        {
            json.WriteStringValue(source);
        }

        json.WriteEndArray();
        json.WriteString("note", Note);
        json.WriteEndObject();
    }
}
