namespace AirwayGuard.Fhir.Reading;

/// <summary>What a Procedure is by its text, where no code says it.</summary>
internal enum NamedSuction
{
    /// <summary>The text does not speak of suction.</summary>
    None,

    /// <summary>Suction of an artificial airway, and nothing else.</summary>
    Airway,

    /// <summary>Suction of another part.</summary>
    Other,

    /// <summary>Suction is named, and not that it was one of the airway: its site is not said, or more than the act is.</summary>
    Unclear,
}

/// <summary>Reads the text of a Procedure: only one that names suction and the airway, and no other part or thing, is a pass.</summary>
internal static class ProcedureText
{
    private static readonly string[] Airways = ["trache", "endotrache", "bronch", "airway", "intubat"];

    private static readonly string[] Others =
        ["oral", "oro", "mouth", "naso", "nasal", "nose", "nares", "pharyn", "throat", "gastr", "stomach", "chest", "pleur", "thora", "wound", "yankauer", "subglottic", "mucus", "bulb"];

    // Beside these it is no plain word that suction was done.
    private static readonly string[] MoreThanTheAct =
        ["no", "not", "without", "cathet", "canist", "tubing", "chang", "replac", "equip", "set", "setup", "check", "teach", "educat", "train", "assess", "plan", "refus", "declin", "attempt"];

    public static NamedSuction Of(string? text)
    {
        var words = new string([.. (text ?? "").Select(c => char.IsLetter(c) ? char.ToLowerInvariant(c) : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (!words.Any(word => word.StartsWith("suction", StringComparison.Ordinal)))
        {
            return NamedSuction.None;
        }

        var isAirway = words.Any(word => word is "ett" or "et" or "trach" or "trachy" || IsOf(word, Airways) || word.EndsWith("tracheal", StringComparison.Ordinal));
        var isOther = words.Any(word => IsOf(word, Others) && !word.EndsWith("tracheal", StringComparison.Ordinal));
        return isOther && !isAirway ? NamedSuction.Other
            : isAirway && !isOther && !words.Any(word => IsWordOf(word, MoreThanTheAct)) ? NamedSuction.Airway
            : NamedSuction.Unclear;
    }

    private static bool IsOf(string word, string[] beginnings) => beginnings.Any(one => word.StartsWith(one, StringComparison.Ordinal));

    // A beginning of three letters or less stands for itself only.
    private static bool IsWordOf(string word, string[] beginnings) =>
        beginnings.Any(one => one.Length > 3 ? word.StartsWith(one, StringComparison.Ordinal) : word == one);
}
