using System.Globalization;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Texts of an order that name or explain it and mostly say nothing that could be judged: the condition, the reason, what is ordered. One that holds a
/// number or a negation may, and is read as notes are.
/// </summary>
internal static class SayingParts
{
    private static readonly HashSet<string> Negations = new(StringComparer.OrdinalIgnoreCase)
    {
        "no", "not", "never", "without", "avoid", "don't", "dont", "none", "stop", "hold", "withhold", "contraindicated",
    };

    public static IEnumerable<(string Element, string? Text)> Of(ServiceRequest order)
    {
        var parts = new List<(string, string?)>();
        if (Raw.Text(order.Code?.TextElement) is not null)
        {
            // Without a text they are what names the order, and read as such.
            AddDisplays(order.Code, "code", parts);
        }

        if (order.AsNeeded is CodeableConcept condition)
        {
            parts.Add(("asNeededCodeableConcept.text", Raw.Text(condition.TextElement)));
        }

        AddReasons(order.ReasonCode, parts);
        return Saying(parts);
    }

    public static IEnumerable<(string Element, string? Text)> Of(DeviceRequest order)
    {
        var parts = new List<(string, string?)>();
        if (order.Code is CodeableConcept code)
        {
            parts.Add(("codeCodeableConcept.text", Raw.Text(code.TextElement)));
            AddDisplays(code, "codeCodeableConcept", parts);
        }

        if (order.Code is ResourceReference reference)
        {
            parts.Add(("codeReference.display", Raw.Text(reference.DisplayElement)));
        }

        AddReasons(order.ReasonCode, parts);
        return Saying(parts);
    }

    // The text stands for itself where it says what the display says.
    private static void AddDisplays(CodeableConcept? code, string element, List<(string, string?)> parts)
    {
        for (var i = 0; i < code?.Coding.Count; i++)
        {
            var display = Raw.Text(code.Coding[i].DisplayElement);
            if (!string.Equals(display?.Trim(), Raw.Text(code.TextElement)?.Trim(), StringComparison.OrdinalIgnoreCase))
            {
                parts.Add((string.Create(CultureInfo.InvariantCulture, $"{element}.coding[{i}].display"), display));
            }
        }
    }

    private static void AddReasons(List<CodeableConcept> reasons, List<(string, string?)> parts)
    {
        for (var i = 0; i < reasons.Count; i++)
        {
            parts.Add((string.Create(CultureInfo.InvariantCulture, $"reasonCode[{i}].text"), Raw.Text(reasons[i].TextElement)));
        }
    }

    private static IEnumerable<(string Element, string? Text)> Saying(List<(string Element, string? Text)> parts) => parts.Where(part => Says(part.Text ?? ""));

    // The 2 of SpO2 is no number; that of q2h is.
    private static bool Says(string text) => Enumerable.Range(0, text.Length).Any(i => char.IsDigit(text[i]) && (i == 0 || !char.IsLetter(text[i - 1]) || text[i - 1] is 'q' or 'Q'))
        || new string([.. text.Select(c => char.IsLetter(c) || c == '\'' ? c : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries).Any(Negations.Contains);
}
