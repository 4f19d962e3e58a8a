using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Which suction a body site, or the text that names equipment, means. A nose is left open: a catheter may be passed through it into the trachea.
/// </summary>
internal static class OrderSites
{
    private static readonly string[] Airways = ["trache", "endotrache", "bronch", "airway", "lung"];

    private static readonly string[] Mouths = ["oral", "orophar", "mouth", "buccal", "pharyn", "nasophar", "throat", "yankauer"];

    private static readonly string[] Stomachs = ["gastr", "nasogastr", "orogastr", "stomach"];

    private static readonly string[] Chests = ["chest", "pleur", "thora"];

    private static readonly string[] Wounds = ["wound"];

    private static readonly int Oral = Answers.Of("oral"), Gastric = Answers.Of("gastric"), ChestDrain = Answers.Of("chest-drain"), Wound = Answers.Of("wound");

    private const int Longest = 500;

    private static readonly Lately<string, int> Named = new(512, InWords);

    /// <returns>Index of an answer of suction-use; 0 where it is not understood.</returns>
    public static int UseOf(CodeableConcept site, CodeMap map)
    {
        foreach (var coding in site.Coding)
        {
            if (Raw.Text(coding.SystemElement) is { Length: > 0 } system && map.TryAnswer(Concepts.SuctionUse, system, Raw.Text(coding.CodeElement) ?? "", out var use))
            {
                return use;
            }
        }

        // A code that nobody mapped may mean more than the text beside it.
        return site.Coding.Count > 0 ? 0 : map.TryAnswerText(Concepts.SuctionUse, Raw.Text(site.TextElement), out var named) ? named : UseOf(Raw.Text(site.TextElement));
    }

    /// <summary>The same of a text: of one that names two places nobody knows.</summary>
    public static int UseOf(string? text) => string.IsNullOrEmpty(text) ? 0 : text.Length > Longest ? InWords(text) : Named.Of(text);

    private static int InWords(string text)
    {
        var words = new string([.. text.Select(c => char.IsLetter(c) ? char.ToLowerInvariant(c) : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var uses = words.Select(Of).Where(use => use != 0).Distinct().ToList();
        return uses.Count == 1 ? uses[0] : 0;
    }

    private static int Of(string word) => word is "ett" or "et" or "trach" || Begins(word, Airways) ? Answers.Airway
        : Begins(word, Mouths) ? Oral
        : Begins(word, Stomachs) ? Gastric
        : Begins(word, Chests) ? ChestDrain
        : Begins(word, Wounds) ? Wound
        : 0;

    private static bool Begins(string word, string[] beginnings) => Array.Exists(beginnings, one => word.StartsWith(one, StringComparison.Ordinal));
}
