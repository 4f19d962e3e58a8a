namespace AirwayGuard.TestKit.Histories;

/// <summary>Which rows may be taken away and rightly end what a check said: those it was said of.</summary>
internal static class MissingFacts
{
    // The last of them sets the time of judging, and what falls due may no longer have done so.
    private static readonly HashSet<string> OfTheTimeOfJudging = new(StringComparer.Ordinal)
    {
        "vacuum-reading-stale", "regulator-calibration-overdue", "airway-assessment-overdue", "tube-changed-since-catheter-chosen", "tube-diameter-unknown",
    };

    // Some rows make a pass, so the subject itself may be gone; gestational age sets the band.
    private static readonly HashSet<string> OfAll = new(StringComparer.Ordinal)
    {
        "suction-pass", "pass-duration", "pass-count", "insertion-depth", "depth-technique", "hand-technique", "saline-instilled", "suction-reaction",
        "ventilator-disconnected", "gestational-age-at-birth",
    };

    private static readonly Dictionary<string, string[]> Judged = new(StringComparer.Ordinal)
    {
        ["intracranial-pressure-monitored"] = ["vacuum-above-ceiling", "ordered-vacuum-above-ceiling", "pass-too-long", "too-many-passes"],
        ["vacuum-pressure"] = Vacuum,
        ["vacuum-set"] = Vacuum,
        ["regulator-mode"] = Vacuum,
        ["full-line-vacuum"] = ["wall-supply-low"],
        ["calibrated-on"] = ["regulator-calibration-overdue"],
        // They are the ratio's own facts, and they set the airways and episodes in which the rest is judged.
        ["airway-type"] = Airway,
        ["tube-inner-diameter"] = Airway,
        ["inner-cannula-diameter"] = Ratio,
        ["inner-cannula-in-place"] = Ratio,
        ["catheter-size"] = Ratio,
        ["secretion-appearance"] = ["blood-stained-secretions-trend"],
        ["secretion-consistency"] = ["catheter-narrower-than-useful"],
        ["fio2"] = ["neonate-over-oxygenated", "oxygen-not-returned", "open-suction-where-closed-advised"],
        // It also hides an older baseline.
        ["preoxygenation"] = ["preoxygenation-short", "neonate-over-oxygenated", "oxygen-not-returned", "open-suction-where-closed-advised"],
        ["preoxygenation-duration"] = ["preoxygenation-short"],
        ["peep"] = ["open-suction-where-closed-advised"],
        ["suction-system"] = ["open-suction-where-closed-advised", "clean-technique-in-hospital"],
        ["suction-indication"] = ["airway-assessment-overdue"],
        ["airway-assessed"] = ["airway-assessment-overdue"],
        ["lung-injury"] = ["disconnected-in-lung-injury"],
        ["bleeding-risk"] = ["bleeding-risk-with-high-vacuum"],
        ["body-weight"] = ["saline-dose-high"],
        ["surfactant-given"] = ["suction-soon-after-surfactant"],
        ["spo2"] = ["desaturation-with-suction"],
        ["heart-rate"] = ["heart-rate-event-with-suction"],
        ["cuff-pressure"] = ["cuff-pressure-out-of-range"],
        ["tube-length"] = ["inserted-too-deep"],
        ["adapter-length"] = ["inserted-too-deep"],
    };

    private static string[] Vacuum =>
    [
        "vacuum-above-ceiling", "vacuum-unit-doubtful", "regulator-on-full-line", "regulator-intermittent", "vacuum-below-useful", "vacuum-read-unoccluded",
        "vacuum-reading-stale", "set-and-charted-vacuum-differ", "bleeding-risk-with-high-vacuum", "vacuum-not-checked-before-pass",
        "regulator-calibration-overdue",
    ];

    private static string[] Ratio => ["catheter-too-wide", "catheter-does-not-fit", "catheter-narrower-than-useful", "tube-diameter-unknown"];

    private static string[] Airway =>
    [
        .. Ratio, "blood-stained-secretions-trend", "vacuum-above-ceiling", "vacuum-reading-stale", "tube-changed-since-catheter-chosen",
        "airway-assessment-overdue", "inserted-too-deep", "cuff-pressure-out-of-range", "safe-depth-not-on-file",
        // Without a regulator named the episode is the line on which mode and set value hold.
        "set-and-charted-vacuum-differ", "vacuum-below-useful", "vacuum-unit-doubtful", "bleeding-risk-with-high-vacuum",
    ];

    /// <param name="versions">All versions of the row.</param>
    /// <param name="setsTheTime">Without the row the time of judging is earlier.</param>
    public static bool MayEnd(string check, IReadOnlyList<ChartRow> versions, bool setsTheTime) =>
        versions.Any(v => OfAll.Contains(v.Concept) || (Judged.TryGetValue(v.Concept, out var checks) && checks.Contains(check, StringComparer.Ordinal)) || IsShort(check, v))
        || (setsTheTime && OfTheTimeOfJudging.Contains(check));

    // Less than 99 % is what breached; a charted pre-oxygenation also hides an older baseline.
    private static bool IsShort(string check, ChartRow row) => check == "preoxygenation-missing" && row.Concept switch
    {
        "fio2" => ReferenceNumber.Read(row.Value)?.Amount is not (>= 0.99m and <= 1m or >= 99m),
        "preoxygenation" => row.Value is not Charted.YesNo { Value: true },
        _ => false,
    };
}
