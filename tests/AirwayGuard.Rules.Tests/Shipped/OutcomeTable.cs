using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>Checks of why suction was done, what it did, and what is charted of it.</summary>
internal static class OutcomeTable
{
    public static readonly LimitRow[] Limits =
    [
        // AARC 2022: suction when indicated
        LimitRow.All("", "no-indication-charted", 0, "Missing|aarc-2022|Cited"),

        // All-Wales teaching page, ICST 2020: assess a tracheostomy at least two-hourly
        LimitRow.All("", "airway-assessment-overdue", 0, "Above 2 h|all-wales-icst-2020|Cited"),

        // Maggiore 2013: more than six suctions a day, adults
        new("", "suctioned-too-often", 0, "", "", "", "Above 6 {count}|maggiore-2013|Cited"),

        // No source found
        LimitRow.All("", "suctioned-despite-order-not-to", 0, "Is yes|common-practice|CommonPractice"),

        // AARC 2022: monitor before and after
        LimitRow.All("", "vitals-missing-around-pass", 0, "Missing|aarc-2022|Cited"),

        // Maggiore 2013: fall of five points; Nagraj 2019: below 80 % in preterm infants; 90 % without a source
        LimitRow.All("", "desaturation-with-suction", 0, "AtOrAbove 5 %|maggiore-2013|Cited"),
        new("", "desaturation-with-suction", 1, "Below 80 %|nagraj-2019|Cited", "Below 90 %|common-practice|CommonPractice",
            "Below 90 %|common-practice|CommonPractice", "Below 90 %|common-practice|CommonPractice"),
        LimitRow.All("", "desaturation-with-suction", 2, "Is desaturation|common-practice|CommonPractice"),

        // Nagraj 2019: below 100 in preterm infants; Maggiore 2013: below 50 or above 150 in adults
        new("", "heart-rate-event-with-suction", 0, "Below 100 /min|nagraj-2019|Cited", "", "", "Below 50 /min|maggiore-2013|Cited"),
        new("", "heart-rate-event-with-suction", 1, "", "", "", "Above 150 /min|maggiore-2013|Cited"),
        LimitRow.All("", "heart-rate-event-with-suction", 2, "Is bradycardia|common-practice|CommonPractice"),
        LimitRow.All("", "heart-rate-event-with-suction", 3, "Is tachycardia|common-practice|CommonPractice"),
        LimitRow.All("", "heart-rate-event-with-suction", 4, "Is arrhythmia|common-practice|CommonPractice"),

        // AARC 2022: assess and document after
        LimitRow.All("", "outcome-not-charted", 0, "Missing|aarc-2022|Cited"),

        // No source found
        LimitRow.All("", "order-not-machine-readable", 0, "IsNot read|common-practice|CommonPractice"),
        LimitRow.All("", "order-not-machine-readable", 1, "Is yes|common-practice|CommonPractice"),
    ];

    public static readonly CheckRow[] Checks =
    [
        new("no-indication-charted", "Pass", "indication-charted", "Moderate", Standing.Once, "", false),
        new("airway-assessment-overdue", "Due", "time-since-tracheostomy-assessed", "Moderate", Standing.Episode, "", false),
        new("suctioned-too-often", "Session", "sessions-in-24-hours", "Low", Standing.Once, "", false) { IsSilent = true },
        new("suctioned-despite-order-not-to", "Pass", "suction-against-order", "High", Standing.Once, "", false),
        new("vitals-missing-around-pass", "Pass", "vitals-around-pass", "Low", Standing.Once, "", false),
        new("desaturation-with-suction", "Pass", "spo2-fall,spo2-nadir,desaturation-reaction", "High;High;High", Standing.Once, "", false),
        new("heart-rate-event-with-suction", "Pass", "heart-rate-lowest,heart-rate-highest,rhythm-reaction,rhythm-reaction,rhythm-reaction", "High;High;High;High;High", Standing.Once, "", false),
        new("outcome-not-charted", "Session", "outcome-charted", "Low", Standing.Once, "", false),
        new("order-not-machine-readable", "Order", "order-reading,order-asks-full-line-or-intermittent", "Low;High", Standing.Order, "", false),
    ];
}
