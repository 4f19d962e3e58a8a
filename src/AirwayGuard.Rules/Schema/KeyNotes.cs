using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Schema;

/// <summary>What a key is for, as an editor shows it beside the line.</summary>
internal static class KeyNotes
{
    /// <summary>The document's own title: a check's is another thing.</summary>
    public const string OfSetTitle = "The set's title, as people read it.";

    private static readonly Dictionary<string, string> Notes = new(StringComparer.Ordinal)
    {
        ["schema"] = "The version of this form of documents.",
        ["name"] = "The set's name in reports, in kebab case.",
        ["version"] = "The set's own version; raise it with every change.",
        [DocumentKeys.From] = "The set it starts from: a shipped name, or a file beside this one. Then only what differs is stated.",
        [DocumentKeys.Without] = "Ids of checks of that set which this one leaves out.",
        ["sources"] = "Ids of publications, each with authors, title, journal and year. Every limit names one.",
        ["rules"] = "The checks.",
        ["id"] = "The check's id in kebab case, public and final: findings, metrics and flags carry it.",
        ["title"] = "What clinicians call it, in a few words.",
        ["judges"] = "What is judged; the measure says which it can.",
        ["measure"] = "What is measured.",
        ["anyOf"] = "Several criteria instead of one: the first that breaches decides value, limit and severity.",
        ["above"] = "A value above the limit breaches; the limit itself is within.",
        ["atOrAbove"] = "A value at or above the limit breaches.",
        ["below"] = "A value below the limit breaches; the limit itself is within.",
        ["atOrBelow"] = "A value at or below the limit breaches.",
        ["outside"] = "A value outside the range breaches; both ends are within.",
        ["is"] = "This code breaches.",
        ["isNot"] = "Every other code breaches.",
        ["missing"] = "That nothing is charted breaches.",
        ["severity"] = "A word, or words with the marks above which they hold, such as { moderate: 0.50, high: 0.70 }.",
        ["tighten"] = "Circumstances in which a further limit holds; the stricter of it and the band's own counts.",
        ["when"] = "Measures with the code or comparison that must hold, all of them.",
        ["allow"] = "Charted reasons that allow another limit, or without a limit allow it altogether. Nothing else loosens.",
        ["reason"] = "What must be charted as the reason.",
        ["bands"] = "The ages it holds for, or all.",
        ["limit"] = "The limit that holds with the reason charted.",
        ["source"] = "An id of sources.",
        ["status"] = "How well the source is known.",
        ["unless"] = "Not judged where all of these hold.",
        ["withheldBy"] = "The id of the check of this document that says it already.",
        ["needsAge"] = "yes: without an age the answer is cannot-tell.",
        ["stands"] = "On what its Flag stands; left out, it raises none.",
        ["waits"] = "How long late charting is waited for before something missing is judged, at most 48 h. Left out: 2 h.",
        ["holds"] = "How long a setting streamed by a device must have stood, at most 1 h. Left out: not at all.",
        ["mode"] = "live, or silent: judged and recorded, nothing leaves the service. Left out: silent.",
        ["say"] = "States the finding.",
        ["sayInstead"] = "Sentences that take the place of say where the value is this code, or where what is charted does not count (charted).",
        ["do"] = "What the policy asks for and what clears the finding.",
        ["clears"] = "What ends it, in a clinician's words.",
    };

    /// <exception cref="KeyNotFoundException">A key was added to the documents without a note.</exception>
    public static string Of(string key) => Notes[key];
}
