namespace AirwayGuard.Core.Charting;

/// <summary>
/// The coded answers, CodeSystem <c>…/CodeSystem/airway-care-answer</c>, as small numbers: an answer's index is the symbol of a
/// coded value. One code serves every concept that lists it (<c>none</c>, <c>moderate</c>).
/// </summary>
public static class Answers
{
    private static readonly string[] Codes = BuildCodes();
    private static readonly Dictionary<string, int> ByCode = Codes
        .Select((code, index) => (code, index))
        .ToDictionary(pair => pair.code, pair => pair.index, StringComparer.OrdinalIgnoreCase);

    public static readonly int Occluded = Of("occluded"), Flowing = Of("flowing"), MethodUnknown = Of("unknown");
    public static readonly int Regulated = Of("regulated"), Intermittent = Of("intermittent"), FullLine = Of("full-line"), Off = Of("off");
    public static readonly int Airway = Of("airway");
    public static readonly int TrachealTube = Of("tracheal-tube"), TracheostomyTube = Of("tracheostomy-tube"), None = Of("none");
    public static readonly int InnerCannula = Of("inner-cannula"), SuctionCatheter = Of("suction-catheter"),
        ClosedSuctionCatheter = Of("closed-suction-catheter"), VacuumRegulator = Of("vacuum-regulator"), WallVacuumOutlet = Of("wall-vacuum-outlet");
    public static readonly int BloodStreaked = Of("blood-streaked"), FrankBlood = Of("frank-blood");
    public static readonly int Thick = Of("thick"), ThickSecretions = Of("thick-secretions");
    public static readonly int Setting = Of("setting");
    public static readonly int Active = Of("active"), OnHold = Of("on-hold"), Draft = Of("draft"), Proposal = Of("proposal");

    public static int Count => Codes.Length;

    /// <summary>The code of an answer.</summary>
    public static string Code(int answer) => Codes[answer];

    /// <summary>The index of a code, case ignored; throws for a code that no concept lists.</summary>
    public static int Of(string code) => ByCode[code];

    /// <summary>An answer that the concept lists, by its code or a text equal to it (trimmed, case ignored).</summary>
    public static bool TryFind(Concept concept, string text, out int answer)
    {
        answer = -1;
        var code = text.Trim();
        return Concepts.Info(concept).Answers.Any(listed => string.Equals(listed, code, StringComparison.OrdinalIgnoreCase))
            && ByCode.TryGetValue(code, out answer);
    }

    private static string[] BuildCodes()
    {
        // Index 0 stays free, so that a default value is never an answer by accident.
        var codes = new List<string> { "" };
        foreach (var info in Concepts.Table)
        {
            codes.AddRange(info.Answers);
        }

        return [.. codes.Distinct(StringComparer.OrdinalIgnoreCase)];
    }
}
