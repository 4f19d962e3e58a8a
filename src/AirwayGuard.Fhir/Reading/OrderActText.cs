using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The text that names what is ordered: whether it says more than suction of an artificial airway.</summary>
internal static class OrderActText
{
    private static readonly HashSet<string> Plain = new(StringComparer.OrdinalIgnoreCase)
    {
        "suction", "suctioning", "suctioned", "airway", "artificial", "tracheal", "trachea", "endotracheal", "tracheostomy", "tracheotomy", "trach", "ett", "et",
        "tube", "technique", "procedure", "of", "the", "via", "through", "patient", "order", "for", "to",
    };

    // "Do not suction" beside doNotPerform says the same a second time.
    private static readonly HashSet<string> Forbidding = new(StringComparer.OrdinalIgnoreCase) { "do", "not", "no" };

    /// <summary>The text, where a word of it is neither the act nor the display of its code; null where none is.</summary>
    /// <param name="forbids">The order is one not to perform the act.</param>
    public static string? Beyond(CodeableConcept? code, bool forbids)
    {
        var text = Raw.Text(code?.TextElement);
        return text is null || IsPlain(text, forbids)
            || code!.Coding.Exists(coding => string.Equals(Raw.Text(coding.DisplayElement)?.Trim(), text.Trim(), StringComparison.OrdinalIgnoreCase))
            ? null
            : text;
    }

    /// <summary>Of an order not to perform the act that is named by what its codes display alone, and coded as nothing that is known: each that says more than the act.</summary>
    public static IEnumerable<string> BeyondDisplayed(CodeableConcept? code, CodeMap map) =>
        Raw.Text(code?.TextElement) is not null || code?.Coding.Exists(coding => IsAct(coding, map)) == true
            ? []
            : OrderName.Of(code, "code").Select(static name => name.Words).Where(static words => !IsPlain(words, forbids: true));

    private static bool IsAct(Coding coding, CodeMap map) =>
        map.TryRow(Encoding.UTF8.GetBytes(Raw.Text(coding.SystemElement) ?? ""), Encoding.UTF8.GetBytes(Raw.Text(coding.CodeElement) ?? ""), out var row) && row.Concept == Concepts.SuctionPass;

    // A number is never plain: it may be a vacuum, a size or an interval.
    private static bool IsPlain(string text, bool forbids)
    {
        var words = new string([.. text.Select(c => char.IsLetterOrDigit(c) ? c : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return Array.TrueForAll(words, word => Plain.Contains(word) || (forbids && Forbidding.Contains(word)));
    }
}
