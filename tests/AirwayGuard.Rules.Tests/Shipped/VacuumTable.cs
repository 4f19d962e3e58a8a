using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>Vacuum: what is ordered, how it is set, read and checked, and the regulator's calibration.</summary>
internal static class VacuumTable
{
    private const string Strict = "strict-ranges";
    private const string Guideline = "guideline-2022";

    public static readonly LimitRow[] Limits =
    [
        // As of vacuum-above-ceiling
        new(Strict, "ordered-vacuum-above-ceiling", 0, "Above 80 mm[Hg]|ireton-2007|Cited", "Above 100 mm[Hg]|aarc-2004-nasotracheal|Cited", "Above 120 mm[Hg]|ntsp-paediatric|FromMemory", "Above 150 mm[Hg]|nsw-aci-2014|Cited"),
        new(Guideline, "ordered-vacuum-above-ceiling", 0, "AtOrAbove 120 mm[Hg]|aarc-2022|Cited", "AtOrAbove 120 mm[Hg]|aarc-2022|Cited", "AtOrAbove 120 mm[Hg]|aarc-2022|Cited", "AtOrAbove 200 mm[Hg]|aarc-2022|Cited"),

        // No source found
        LimitRow.All("", "regulator-intermittent", 0, "Is intermittent|common-practice|CommonPractice"),
        new("", "vacuum-below-useful", 0, "Below 40 mm[Hg]|common-practice|CommonPractice", "Below 60 mm[Hg]|common-practice|CommonPractice", "Below 60 mm[Hg]|common-practice|CommonPractice", "Below 60 mm[Hg]|common-practice|CommonPractice"),
        LimitRow.All("", "set-and-charted-vacuum-differ", 0, "Above 20 mm[Hg]|common-practice|CommonPractice"),
        new(Strict, "bleeding-risk-with-high-vacuum", 0, "", "", "", "Above 120 mm[Hg]|common-practice|CommonPractice"),
        new(Guideline, "bleeding-risk-with-high-vacuum", 0, "", "", "", "Above 150 mm[Hg]|common-practice|CommonPractice"),

        // Auckland and Starship 2015: checked by occluding the tubing; fifteen minutes from memory
        LimitRow.All("", "vacuum-not-checked-before-pass", 0, "Missing|auckland-newborn-2015|FromMemory"),

        // NSW ACI 2014 rec. 12: the maximum is an occluded pressure
        LimitRow.All("", "vacuum-read-unoccluded", 0, "Is flowing|nsw-aci-2014|Cited"),

        // ISO 10079: from memory
        LimitRow.All("", "regulator-calibration-overdue", 0, "Above 12 mo|iso-10079|FromMemory"),
    ];

    public static readonly CheckRow[] Checks =
    [
        new("ordered-vacuum-above-ceiling", "Order", "ordered-vacuum", "High", Standing.Order, "", false) { Tighten = 1 },
        new("regulator-intermittent", "Setting", "regulator-mode", "Moderate", Standing.Regulator, "", false),
        new("vacuum-below-useful", "Setting", "least-vacuum", "Low", Standing.Once, "", false),
        new("vacuum-not-checked-before-pass", "Pass", "vacuum-check-before-pass", "Moderate", Standing.Episode, "", false),
        new("vacuum-read-unoccluded", "Setting", "vacuum-reading-method", "Low", Standing.Once, "", false),
        new("set-and-charted-vacuum-differ", "Setting", "set-vacuum-difference", "Moderate", Standing.Once, "", false),
        new("regulator-calibration-overdue", "Due", "time-since-calibration", "Low", Standing.Regulator, "", false),
        new("bleeding-risk-with-high-vacuum", "Setting", "vacuum-at-bleeding-risk", "Moderate", Standing.Once, "regulator-on-full-line", false),
    ];
}
