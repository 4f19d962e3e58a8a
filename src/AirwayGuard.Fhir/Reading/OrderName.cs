using System.Globalization;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The words that name what is ordered: the text beside the codes, and where there is none what the codes display, or the reference does.</summary>
internal static class OrderName
{
    /// <param name="element">Path of the code in its resource.</param>
    /// <returns>Each with the element it stands in; none where nothing is said in words.</returns>
    public static IEnumerable<(string Element, string Words)> Of(CodeableConcept? code, string element)
    {
        if (Raw.Text(code?.TextElement) is { } text && !string.IsNullOrWhiteSpace(text))
        {
            yield return (element + ".text", text);
            yield break;
        }

        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < code?.Coding.Count; i++)
        {
            if (Raw.Text(code.Coding[i].DisplayElement) is { } display && !string.IsNullOrWhiteSpace(display) && seen.Add(display.Trim()))
            {
                yield return (string.Create(CultureInfo.InvariantCulture, $"{element}.coding[{i}].display"), display);
            }
        }
    }

    /// <summary>The same of equipment, which may be named by a reference.</summary>
    public static IEnumerable<(string Element, string Words)> Of(DataType? code) =>
        code is ResourceReference reference
            ? Raw.Text(reference.DisplayElement) is { } display && !string.IsNullOrWhiteSpace(display) ? [("codeReference.display", display)] : []
            : Of(code as CodeableConcept, "codeCodeableConcept");
}
