using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>One check of each kind of subject that came second.</summary>
internal static class GroundTable
{
    public static readonly LimitRow[] Limits =
    [
        // No source found
        LimitRow.All("", "vacuum-reading-stale", 0, "Above 12 h|common-practice|CommonPractice"),

        // NFPA 99, HTM 02-01: from memory
        LimitRow.All("", "wall-supply-low", 0, "Below 300 mm[Hg]|nfpa-99|FromMemory"),

        // A site sets it
        LimitRow.All("", "wall-supply-unsurveyed", 0, ""),

        // St George's tracheostomy tables: a maker's size is not the inner diameter
        LimitRow.All("", "tube-diameter-unknown", 0, "Missing|st-georges-tracheostomy|Cited"),

        // AARC 2022: no routine saline; RCH Melbourne: where secretions are thick
        LimitRow.All("", "saline-without-reason", 0, "Is true|aarc-2022|Cited"),
        LimitRow.All("", "saline-without-reason", 1, "Above 0 mL|aarc-2022|Cited"),
    ];

    public static readonly CheckRow[] Checks =
    [
        new("vacuum-reading-stale", "Due", "time-since-vacuum-read", "Low", Standing.Episode, "", false),
        new("wall-supply-low", "Outlet", "wall-supply", "Moderate", Standing.Outlet, "", false),
        new("wall-supply-unsurveyed", "Due", "time-since-wall-supply-read", "Low", Standing.Outlet, "", false) { IsSilent = true },
        new("tube-diameter-unknown", "Airway", "tube-diameter", "Moderate", Standing.Airway, "", false),
        new("saline-without-reason", "Pass,Order", "saline-given,saline-volume", "Moderate;Moderate", Standing.Once, "", false) { Allow = "thick-secretions,suspected-obstruction,emergency,lung-injury,raised-intracranial-pressure,bleeding-risk,shallow-ineffective,order-specific,other-with-text" },
    ];
}
