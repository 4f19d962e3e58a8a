using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>Passes, oxygen, saline and technique.</summary>
internal static class OxygenTable
{
    public static readonly LimitRow[] Limits =
    [
        // Johns Hopkins University, suctioning of the adult tracheostomy: at most 3
        LimitRow.All("", "too-many-passes", 0, "Above 3 {count}|jhu-tracheostomy|Cited"),

        // No source found
        LimitRow.All("", "rest-between-passes-short", 0, "Below 30 s|common-practice|CommonPractice"),

        // AARC 2010, body: 100 % for 30 to 60 s, from memory
        new("", "preoxygenation-short", 0, "", "", "Below 30 s|aarc-2010|FromMemory", "Below 30 s|aarc-2010|FromMemory"),

        // Iowa: at most 0.10 over the baseline, back after; in how many minutes is from memory
        new("", "neonate-over-oxygenated", 0, "Above 0.10 1|iowa-neonatology|Cited", "", "", ""),
        new("", "oxygen-not-returned", 0, "Above 5 min|iowa-neonatology|FromMemory", "Above 10 min|rch-melbourne|FromMemory", "Above 10 min|rch-melbourne|FromMemory", "Above 10 min|common-practice|CommonPractice"),

        // RCH Melbourne: 0.1 to 0.2 mL/kg where secretions are thick
        new("", "saline-dose-high", 0, "Above 0.2 mL/kg|rch-melbourne|Cited", "", "", ""),

        // A procedure manual: PEEP from 10 cmH2O, inspired oxygen from 0.60, from memory
        LimitRow.All("", "open-suction-where-closed-advised", 0, "AtOrAbove 10 cm[H2O]|critical-care-manual|FromMemory"),
        LimitRow.All("", "open-suction-where-closed-advised", 1, "AtOrAbove 0.60 1|critical-care-manual|FromMemory"),

        // AARC 2010 rec. 8: no disconnection
        LimitRow.All("", "disconnected-in-lung-injury", 0, "Is true|aarc-2010|Cited"),

        // AARC 2022, level C: sterile for open suction
        LimitRow.All("", "clean-technique-in-hospital", 0, "Is clean|aarc-2022|Cited"),

        // Auckland and Starship: at least 8 h
        new("", "suction-soon-after-surfactant", 0, "Below 8 h|starship-newborn|Cited", "", "", ""),
    ];

    public static readonly CheckRow[] Checks =
    [
        new("too-many-passes", "Session", "passes-in-session", "Moderate", Standing.Once, "", false) { Tighten = 1 },
        new("rest-between-passes-short", "Pass", "rest-between-passes", "Low", Standing.Once, "", false),
        new("preoxygenation-short", "Pass", "preoxygenation-length", "Low", Standing.Once, "", true),
        new("neonate-over-oxygenated", "Pass,Order", "oxygen-rise", "High", Standing.Once, "", true),
        new("oxygen-not-returned", "Due", "time-oxygen-raised-after-suction", "Moderate", Standing.Episode, "", true),
        new("saline-dose-high", "Pass,Order", "saline-dose", "Moderate", Standing.Once, "", false),
        new("open-suction-where-closed-advised", "Pass,Order", "peep-at-open-suction,baseline-oxygen-at-open-suction", "Moderate;Moderate", Standing.Episode, "", false),
        new("disconnected-in-lung-injury", "Pass", "disconnected-in-lung-injury", "High", Standing.Once, "", false),
        new("clean-technique-in-hospital", "Pass", "hand-technique-in-hospital", "Moderate", Standing.Once, "", false),
        new("suction-soon-after-surfactant", "Pass", "time-since-surfactant", "Moderate", Standing.Once, "", false),
    ];
}
