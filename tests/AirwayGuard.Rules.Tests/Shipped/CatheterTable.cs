using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>Catheter and tube: fit, depth, technique, change, cuff.</summary>
internal static class CatheterTable
{
    public static readonly LimitRow[] Limits =
    [
        // ISO 8836: the size is the outside diameter; as wide as the bore does not pass
        LimitRow.All("", "catheter-does-not-fit", 0, "AtOrAbove 1 1|iso-8836|Cited"),

        // No source found
        LimitRow.All("", "catheter-narrower-than-useful", 0, "Below 0.33 1|common-practice|CommonPractice"),
        LimitRow.All("", "tube-changed-since-catheter-chosen", 0, "Is yes|common-practice|CommonPractice"),

        // Iowa: tip not beyond the tube's end | NTSP paediatric: 0.5 cm past the tip | skills text TN-29: tube, adapter and at most 1 cm
        new("", "inserted-too-deep", 0, "Above 0 cm|iowa-neonatology|Cited", "Above 0 cm|common-practice|CommonPractice", "Above 0.5 cm|ntsp-paediatric-depth|Cited", "Above 1 cm|skills-text-tn29|Cited"),
        LimitRow.All("", "safe-depth-not-on-file", 0, "Missing|skills-text-tn29|Cited"),

        // AARC 2010 (4): shallow first, from studies of infants and children
        new("", "deep-technique-without-reason", 0, "Is deep|aarc-2010|Cited", "Is deep|aarc-2010|Cited", "Is deep|aarc-2010|Cited", ""),

        // A site sets it
        LimitRow.All("", "closed-catheter-change-overdue", 0, ""),

        // Lizy 2014, adults; in children no source found
        new("", "cuff-pressure-out-of-range", 0, "", "", "Outside 20 to 30 cm[H2O]|common-practice|CommonPractice", "Outside 20 to 30 cm[H2O]|lizy-2014|Cited"),
    ];

    public static readonly CheckRow[] Checks =
    [
        new("catheter-does-not-fit", "Pass,Order", "catheter-to-tube-ratio", "High", Standing.Airway, "", false),
        new("catheter-narrower-than-useful", "Pass", "catheter-to-tube-ratio-with-thick-secretions", "Low", Standing.Once, "", false),
        new("tube-changed-since-catheter-chosen", "Order", "tube-changed-since-catheter-chosen", "Moderate", Standing.Once, "", false),
        new("inserted-too-deep", "Pass,Order", "depth-beyond-tube", "Moderate", Standing.Once, "", false),
        new("safe-depth-not-on-file", "SuctionedAirway", "safe-depth", "Low", Standing.Airway, "", false) { IsSilent = true },
        new("deep-technique-without-reason", "Pass,Order", "depth-technique", "Low", Standing.Once, "", false)
        {
            Allow = "shallow-ineffective,thick-secretions,suspected-obstruction,emergency,lung-injury,raised-intracranial-pressure,bleeding-risk,order-specific,other-with-text",
        },
        new("closed-catheter-change-overdue", "Due", "time-since-closed-catheter-first-used", "Low", Standing.Airway, "", false) { IsSilent = true },
        new("cuff-pressure-out-of-range", "Cuff", "cuff-pressure", "Moderate", Standing.Airway, "", false),
    ];
}
