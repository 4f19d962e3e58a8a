using System.Text;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Narrative for plain viewers: paragraphs of escaped text.</summary>
internal static class Narratives
{
    private const string End = "</div>";

    public static Narrative Of(IEnumerable<string> paragraphs)
    {
        var div = new StringBuilder("<div xmlns=\"http://www.w3.org/1999/xhtml\">");
        foreach (var paragraph in paragraphs)
        {
            div.Append(Paragraph(paragraph));
        }

        return new Narrative { Status = Narrative.NarrativeStatus.Generated, Div = div.Append(End).ToString() };
    }

    /// <summary>Adds a paragraph at the end of what is there; a narrative of another form stays as it is.</summary>
    public static void Append(DomainResource resource, string paragraph)
    {
        if (resource.Text?.DivElement?.JsonValue is string div && div.EndsWith(End, StringComparison.Ordinal))
        {
            resource.Text.Div = $"{div[..^End.Length]}{Paragraph(paragraph)}{End}";
        }
    }

    private static string Paragraph(string text) => $"<p>{Escape(text)}</p>";

    // XHTML in FHIR takes no control characters, and they could only come from charted strings.
    private static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var letter in text)
        {
            _ = letter switch
            {
                '&' => escaped.Append("&amp;"),
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '"' => escaped.Append("&quot;"),
                _ => escaped.Append(IsPlain(letter) ? letter : ' '),
            };
        }

        return escaped.ToString();
    }

    private static bool IsPlain(char letter) => letter is '\t' or '\n' or '\r' || (letter >= ' ' && letter is < '\uFFFE');
}
