using System.Text.Json;
using AirwayGuard.Host.DemoWard.Charting;
using static AirwayGuard.Host.DemoWard.Writing.ResourceJson;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>One row of a column, as flowsheets give it out: an Observation of its own.</summary>
internal static class ObservationJson
{
    private const int CorrectedAfter = 3 * 60;

    public static WardResource Of(WardPatient patient, ChartColumn column, string row, RowValue value, WardClock clock, bool isCorrection = false) =>
        Resource("Observation", FormattableString.Invariant($"{patient.Key}-{column.Minute:D4}-{row}"), json =>
        {
            json.Identifier("charting/column", $"col/{patient.Encounter}/{clock.Key(column.Minute)}/{row}");
            json.WriteString("status", isCorrection ? "corrected" : "final");
            json.Concept("code", WardRow.System, row, WardRow.Display(row));
            json.Reference("subject", "Patient/" + patient.Key);
            json.Reference("encounter", "Encounter/" + patient.Encounter);
            json.WriteString("effectiveDateTime", clock.Written(column.Minute, column.ByMonitor));
            var issued = column.Minute + column.ChartedAfter + (isCorrection ? CorrectedAfter : 0);
            json.WriteString("issued", clock.Written(Math.Min(issued, WardClock.Minutes), column.ByMonitor));
            Write(json, value);
            if (column.Regulator is { } regulator && WardRow.IsOfRegulator(row))
            {
                json.Reference("device", regulator);
            }
        });

    private static void Write(Utf8JsonWriter json, RowValue value)
    {
        switch (value)
        {
            case RowValue.Number number:
                json.WriteStartObject("valueQuantity");
                json.WriteNumber("value", number.Value);
                if (number.Unit is not null)
                {
                    json.WriteString("unit", number.Unit);
                }

                json.WriteEndObject();
                break;
            case RowValue.Words words:
                json.WriteString("valueString", words.Value);
                break;
            case RowValue.Answer answer:
                json.Concept("valueCodeableConcept", WardAnswer.System, answer.Value.Code, answer.Value.Display);
                break;
            case RowValue.Tick tick:
                json.WriteBoolean("valueBoolean", tick.Value);
                break;
        }
    }
}
