namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>Every figure the shipped rule sets hold a limit by, with who says it. What no source says has a row as well.</summary>
internal static class PublishedFigures
{
    private const string Aarc2022 = "Respir Care 2022;67(2):258-271", Aarc2010 = "Respir Care 2010;55(6):758-764", Nobody = "no published source found";
    private const string Vacuum = "vacuum-pressure,ordered-vacuum", Fit = "catheter-to-tube-ratio", All = "NICA", Beyond = "NIC";

    public static readonly PublishedFigure[] Rows =
    [
        // Ceilings: Ireton prints 60-80, the nasotracheal guideline 80-100, NTSP 100-120 (row cut off), NSW ACI rec. 12 at most 150
        new("ireton-2007", Vacuum, "N", "at most 80 mm[Hg]", 'O', "Paediatr Nurs 2007;19(10):14-18"),
        new("aarc-2004-nasotracheal", Vacuum, "I", "at most 100 mm[Hg]", 'O', "Respir Care 2004;49(9):1080-4"),
        new("ntsp-paediatric", Vacuum, "C", "at most 120 mm[Hg]", 'R', "National Tracheostomy Safety Project, paediatric e-learning, table 1"),
        new("nsw-aci-2014", Vacuum, "A", "at most 150 mm[Hg]", 'O', "SHPN 140006), recommendation 12"),
        new("aarc-2022", Vacuum, Beyond, "below 120 mm[Hg]", 'O', Aarc2022),
        new("aarc-2022", Vacuum, "A", "below 200 mm[Hg]", 'O', Aarc2022),

        // Head-injured adults; the sets hold it in every band where the pressure is monitored
        new("jnn-1993", Vacuum, All, "below 120 mm[Hg]", 'O', "J Neurosci Nurs 1993;25(2):86-91"),
        new("jnn-1993", "pass-duration", All, "at most 10 s", 'O', "J Neurosci Nurs 1993;25(2):86-91"),
        new("jnn-1993", "passes-in-session", All, "at most 2 {count}", 'O', "J Neurosci Nurs 1993;25(2):86-91"),

        // Regulator, readings, supply
        new("common-practice", "regulator-mode", All, "not full-line", 'P', Nobody),
        new("common-practice", "regulator-mode", All, "not intermittent", 'P', Nobody),
        new("common-practice", "least-vacuum", "N", "at least 40 mm[Hg]", 'P', Nobody),
        new("common-practice", "least-vacuum", "ICA", "at least 60 mm[Hg]", 'P', Nobody),
        new("common-practice", "vacuum-unit", All, "not doubtful", 'P', Nobody),
        new("auckland-newborn-2015", "vacuum-check-before-pass", All, "charted", 'R', "Auckland and Starship newborn guideline, 2015"),
        new("nsw-aci-2014", "vacuum-reading-method", All, "not flowing", 'O', "SHPN 140006), recommendation 12"),
        new("common-practice", "time-since-vacuum-read", All, "at most 12 h", 'P', Nobody),
        new("common-practice", "set-vacuum-difference", All, "at most 20 mm[Hg]", 'P', Nobody),
        new("iso-10079", "time-since-calibration", All, "at most 12 mo", 'R', "ISO 10079"),
        new("nfpa-99", "wall-supply", All, "at least 300 mm[Hg]", 'R', "NFPA 99 and HTM 02-01"),
        new("common-practice", "vacuum-at-bleeding-risk", "A", "at most 120 mm[Hg]", 'P', Nobody),
        new("common-practice", "vacuum-at-bleeding-risk", "A", "at most 150 mm[Hg]", 'P', Nobody),

        // Fit: AARC 2022's abstract prints 70 % for neonates and 50 % beyond, a summary of it 70 % for all; AARC 2010 70 % for infants
        new("aarc-2022-abstract", Fit, "N", "below 0.70 1", 'O', Aarc2022),
        new("aarc-2010", Fit, "I", "below 0.70 1", 'D', Aarc2010),
        new("aarc-2022-abstract", Fit, "CA", "below 0.50 1", 'D', Aarc2022),
        new("iso-8836", Fit, All, "below 1 1", 'O', "ISO 8836:2014, suction catheters for the airway, clause 5.1"),
        new("common-practice", "catheter-to-tube-ratio-with-thick-secretions", All, "at least 0.33 1", 'P', Nobody),
        new("st-georges-tracheostomy", "tube-diameter", All, "charted", 'O', "St George's"),
        new("common-practice", "tube-changed-since-catheter-chosen", All, "not yes", 'P', Nobody),

        // Depth, technique, cuff: Iowa not beyond the end, NTSP 0.5 cm, the skills text at most 1 cm
        new("iowa-neonatology", "depth-beyond-tube", "N", "at most 0 cm", 'O', "University of Iowa"),
        new("common-practice", "depth-beyond-tube", "I", "at most 0 cm", 'P', Nobody),
        new("ntsp-paediatric-depth", "depth-beyond-tube", "C", "at most 0.5 cm", 'O', "National Tracheostomy Safety Project, paediatric e-learning"),
        new("skills-text-tn29", "depth-beyond-tube", "A", "at most 1 cm", 'O', "Hahn 2010 and Pate & Zapata 2002"),
        new("skills-text-tn29", "safe-depth", All, "charted", 'O', "Hahn 2010 and Pate & Zapata 2002"),
        new("aarc-2010", "depth-technique", Beyond, "not deep", 'O', Aarc2010),
        new("aarc-2022", "hand-technique-in-hospital", All, "not clean", 'O', Aarc2022),
        new("lizy-2014", "cuff-pressure", "A", "within 20 to 30 cm[H2O]", 'O', "Am J Crit Care 2014;23:e1-8"),
        new("common-practice", "cuff-pressure", "C", "within 20 to 30 cm[H2O]", 'P', Nobody),

        // Passes: Iowa 10 s in neonates, AARC 2022 15 s; Johns Hopkins at most 3 passes in an adult's tracheostomy
        new("iowa-neonatology", "pass-duration", "N", "at most 10 s", 'O', "University of Iowa"),
        new("aarc-2022", "pass-duration", "ICA", "at most 15 s", 'O', Aarc2022),
        new("jhu-tracheostomy", "passes-in-session", All, "at most 3 {count}", 'O', "Johns Hopkins University"),
        new("common-practice", "rest-between-passes", All, "at least 30 s", 'P', Nobody),
        new("maggiore-2013", "sessions-in-24-hours", "A", "at most 6 {count}", 'O', "Respir Care 2013;58:1588-97"),
        new("starship-newborn", "time-since-surfactant", "N", "at least 8 h", 'O', "Starship and Auckland newborn services"),

        // Oxygen: AARC 2010's body 30 to 60 s of 100 %; Iowa at most 0.10 over the baseline. Minutes until it is back: neither source prints them
        new("aarc-2022", "preoxygenation-given", "CA", "charted", 'O', Aarc2022),
        new("aarc-2010", "preoxygenation-length", "CA", "at least 30 s", 'R', Aarc2010),
        new("iowa-neonatology", "oxygen-rise", "N", "at most 0.10 1", 'O', "University of Iowa"),
        new("iowa-neonatology", "time-oxygen-raised-after-suction", "N", "at most 5 min", 'R', "University of Iowa"),
        new("rch-melbourne", "time-oxygen-raised-after-suction", "IC", "at most 10 min", 'R', "Royal Children's Hospital Melbourne"),
        new("common-practice", "time-oxygen-raised-after-suction", "A", "at most 10 min", 'P', Nobody),
        new("critical-care-manual", "peep-at-open-suction", All, "event from 10 cm[H2O]", 'R', "Critical-care procedure manual"),
        new("critical-care-manual", "baseline-oxygen-at-open-suction", All, "event from 0.60 1", 'R', "Critical-care procedure manual"),
        new("aarc-2010", "disconnected-in-lung-injury", All, "not true", 'O', Aarc2010),

        // Saline: AARC 2022 generally not; RCH 0.1 to 0.2 mL/kg where thick
        new("aarc-2022", "saline-given", All, "not true", 'O', Aarc2022),
        new("aarc-2022", "saline-volume", All, "at most 0 mL", 'O', Aarc2022),
        new("rch-melbourne", "saline-dose", "N", "at most 0.2 mL/kg", 'O', "Royal Children's Hospital Melbourne"),

        // Why, what came of it, orders
        new("aarc-2022", "indication-charted", All, "charted", 'O', Aarc2022),
        new("aarc-2022", "outcome-charted", All, "charted", 'O', Aarc2022),
        new("aarc-2022", "vitals-around-pass", All, "charted", 'O', Aarc2022),
        new("all-wales-icst-2020", "time-since-tracheostomy-assessed", All, "at most 2 h", 'O', "ICST 2020"),
        new("aarc-2022", "order-timing", Beyond, "not by-clock", 'O', Aarc2022),
        new("aarc-2010", "order-timing", "A", "not by-clock", 'R', Aarc2010),
        new("common-practice", "suction-against-order", All, "not yes", 'P', Nobody),
        new("common-practice", "order-reading", All, "only read", 'P', Nobody),
        new("common-practice", "order-asks-full-line-or-intermittent", All, "not yes", 'P', Nobody),

        // Events: Maggiore's definitions are those another publication quotes; Nagraj's are of preterm infants
        new("maggiore-2013", "spo2-fall", All, "event from 5 %", 'Q', "Respir Care 2013;58:1588-97"),
        new("nagraj-2019", "spo2-nadir", "N", "event below 80 %", 'O', "Pediatr Res 2019;86:622-7"),
        new("common-practice", "spo2-nadir", "ICA", "event below 90 %", 'P', Nobody),
        new("common-practice", "desaturation-reaction", All, "not desaturation", 'P', Nobody),
        new("nagraj-2019", "heart-rate-lowest", "N", "event below 100 /min", 'O', "Pediatr Res 2019;86:622-7"),
        new("maggiore-2013", "heart-rate-lowest", "A", "event below 50 /min", 'Q', "Respir Care 2013;58:1588-97"),
        new("maggiore-2013", "heart-rate-highest", "A", "event above 150 /min", 'Q', "Respir Care 2013;58:1588-97"),
        new("common-practice", "rhythm-reaction", All, "not bradycardia", 'P', Nobody),
        new("common-practice", "rhythm-reaction", All, "not tachycardia", 'P', Nobody),
        new("common-practice", "rhythm-reaction", All, "not arrhythmia", 'P', Nobody),
        new("common-practice", "blood-stained-sessions", All, "event from 2 {count}", 'P', Nobody),
        new("common-practice", "frank-blood", All, "event from 1 {count}", 'P', Nobody),

        // Reasons that let deep suction or saline pass
        new("aarc-2010", "shallow-ineffective with depth-technique", All, "charted", 'O', Aarc2010),
        new("rch-melbourne", "thick-secretions with saline-given", All, "charted", 'O', "Royal Children's Hospital Melbourne"),
        .. ReasonsOf("depth-technique", "thick-secretions"),
        .. ReasonsOf("saline-given", "shallow-ineffective"),
    ];

    /// <summary>
    /// Where a set takes the figure itself as within although its source says below. strict-ranges leaves 12 Fr in 8.0 mm, exactly one half,
    /// to the other set; of 120 mmHg in head injury both sets let 120 itself stand.
    /// </summary>
    public static readonly (string Set, string Source, string Measure)[] ItselfWithin =
    [
        ("strict-ranges", "aarc-2022-abstract", Fit), ("strict-ranges", "aarc-2010", Fit),
        ("strict-ranges", "jnn-1993", "vacuum-pressure"), ("strict-ranges", "jnn-1993", "ordered-vacuum"),
        ("guideline-2022", "jnn-1993", "vacuum-pressure"), ("guideline-2022", "jnn-1993", "ordered-vacuum"),
    ];

    private static IEnumerable<PublishedFigure> ReasonsOf(string measure, string own) =>
        ((string[])[own, "suspected-obstruction", "emergency", "lung-injury", "raised-intracranial-pressure", "bleeding-risk", "order-specific", "other-with-text"])
            .Select(reason => new PublishedFigure("common-practice", $"{reason} with {measure}", All, "charted", 'P', Nobody));
}
