using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>The eight checks that came first.</summary>
internal static class FirstTable
{
    private const string Strict = "strict-ranges";
    private const string Guideline = "guideline-2022";

    public static readonly LimitRow[] Limits =
    [
        // Ireton 2007: 60-80 | AARC nasotracheal 2004: 80-100 | NTSP paediatric: 100-120, row cut off | NSW ACI 2014 rec. 12: at most 150
        new(Strict, "vacuum-above-ceiling", 0, "Above 80 mm[Hg]|ireton-2007|Cited", "Above 100 mm[Hg]|aarc-2004-nasotracheal|Cited", "Above 120 mm[Hg]|ntsp-paediatric|FromMemory", "Above 150 mm[Hg]|nsw-aci-2014|Cited"),

        // AARC 2022: below 120 in neonates, infants and children, below 200 in adults
        new(Guideline, "vacuum-above-ceiling", 0, "AtOrAbove 120 mm[Hg]|aarc-2022|Cited", "AtOrAbove 120 mm[Hg]|aarc-2022|Cited", "AtOrAbove 120 mm[Hg]|aarc-2022|Cited", "AtOrAbove 200 mm[Hg]|aarc-2022|Cited"),

        // No source found
        new("", "regulator-on-full-line", 0, "Is full-line|common-practice|CommonPractice", "Is full-line|common-practice|CommonPractice", "Is full-line|common-practice|CommonPractice", "Is full-line|common-practice|CommonPractice"),
        new("", "vacuum-unit-doubtful", 0, "Is doubtful|common-practice|CommonPractice", "Is doubtful|common-practice|CommonPractice", "Is doubtful|common-practice|CommonPractice", "Is doubtful|common-practice|CommonPractice"),

        // AARC 2022 abstract: below 70 % in neonates, below 50 % beyond; AARC 2010: below 70 % in infants; a summary of AARC 2022 prints 70 % for all
        new(Guideline, "catheter-too-wide", 0, "AtOrAbove 0.70 1|aarc-2022-abstract|Cited", "AtOrAbove 0.70 1|aarc-2010|Disputed", "AtOrAbove 0.50 1|aarc-2022-abstract|Disputed", "AtOrAbove 0.50 1|aarc-2022-abstract|Disputed"),
        new(Strict, "catheter-too-wide", 0, "Above 0.70 1|aarc-2022-abstract|Cited", "Above 0.70 1|aarc-2010|Disputed", "Above 0.50 1|aarc-2022-abstract|Disputed", "Above 0.50 1|aarc-2022-abstract|Disputed"),

        // Iowa: at most 10 s in neonates; AARC 2022: no longer than 15 s
        new("", "pass-too-long", 0, "Above 10 s|iowa-neonatology|Cited", "Above 15 s|aarc-2022|Cited", "Above 15 s|aarc-2022|Cited", "Above 15 s|aarc-2022|Cited"),

        // AARC 2022, level B: in adults and children
        new("", "preoxygenation-missing", 0, "", "", "Missing|aarc-2022|Cited", "Missing|aarc-2022|Cited"),

        // No source found
        new("", "blood-stained-secretions-trend", 0, "AtOrAbove 2 {count}|common-practice|CommonPractice", "AtOrAbove 2 {count}|common-practice|CommonPractice", "AtOrAbove 2 {count}|common-practice|CommonPractice", "AtOrAbove 2 {count}|common-practice|CommonPractice"),
        new("", "blood-stained-secretions-trend", 1, "AtOrAbove 1 {count}|common-practice|CommonPractice", "AtOrAbove 1 {count}|common-practice|CommonPractice", "AtOrAbove 1 {count}|common-practice|CommonPractice", "AtOrAbove 1 {count}|common-practice|CommonPractice"),

        // AARC 2022, level B in neonates and children: as needed, not scheduled; AARC 2010 rec. 1, for adults from memory
        new("", "suction-ordered-by-clock", 0, "Is by-clock|aarc-2022|Cited", "Is by-clock|aarc-2022|Cited", "Is by-clock|aarc-2022|Cited", "Is by-clock|aarc-2010|FromMemory"),
    ];

    public static readonly CheckRow[] Checks =
    [
        new("vacuum-above-ceiling", "Setting", "vacuum-pressure", "High", Standing.Regulator, "regulator-on-full-line", false) { Tighten = 1 },
        new("regulator-on-full-line", "Setting", "regulator-mode", "High", Standing.Regulator, "", false),
        new("vacuum-unit-doubtful", "Setting,Order", "vacuum-unit", "Moderate", Standing.Once, "", false),
        new("catheter-too-wide", "Pass,Order", "catheter-to-tube-ratio", "Moderate,High>0.70", Standing.Airway, "catheter-does-not-fit", false),
        new("pass-too-long", "Pass", "pass-duration", "Moderate,High>20", Standing.Once, "", false) { Tighten = 1 },
        new("preoxygenation-missing", "Pass", "preoxygenation-given", "Moderate", Standing.Once, "", true) { Unless = "hyperoxygenation-contraindicated=yes" },
        new("blood-stained-secretions-trend", "Session", "blood-stained-sessions,frank-blood", "Moderate;High", Standing.Episode, "", false),
        new("suction-ordered-by-clock", "Order", "order-timing", "Moderate", Standing.Order, "", false),
    ];
}
