using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Charting;

/// <summary>The fixed table of concepts: first the public code system <c>…/CodeSystem/airway-care</c>, then what only resources carry.</summary>
public static class Concepts
{
    private static readonly List<ConceptInfo> Rows = [];

    public static readonly Concept SuctionPass = Mark("suction-pass");
    public static readonly Concept VacuumPressure = Number("vacuum-pressure", Dimension.Pressure);
    public static readonly Concept VacuumSet = Number("vacuum-set", Dimension.Pressure);
    public static readonly Concept VacuumReadingMethod = Coded("vacuum-reading-method", "occluded", "flowing", "unknown");
    public static readonly Concept RegulatorMode = Coded("regulator-mode", "regulated", "intermittent", "full-line", "off");
    public static readonly Concept SuctionUse = Coded("suction-use", "airway", "oral", "gastric", "chest-drain", "wound", "other");
    public static readonly Concept FullLineVacuum = Number("full-line-vacuum", Dimension.Pressure);
    public static readonly Concept CalibratedOn = Add("calibrated-on", Dimension.Date, true, false, false);
    public static readonly Concept AirwayType = Coded("airway-type", "tracheal-tube", "tracheostomy-tube", "none");
    public static readonly Concept TubeInnerDiameter = Number("tube-inner-diameter", Dimension.Length);
    public static readonly Concept InnerCannulaDiameter = Number("inner-cannula-diameter", Dimension.Length);
    public static readonly Concept InnerCannulaInPlace = Mark("inner-cannula-in-place");
    public static readonly Concept TubeLength = Number("tube-length", Dimension.Length);
    public static readonly Concept AdapterLength = Number("adapter-length", Dimension.Length);
    public static readonly Concept InsertionDepth = Number("insertion-depth", Dimension.Length);
    public static readonly Concept TubeDepth = Number("tube-depth", Dimension.Length);
    public static readonly Concept CatheterSize = Number("catheter-size", Dimension.Catheter);
    public static readonly Concept SuctionSystem = Coded("suction-system", "open", "closed");
    public static readonly Concept DepthTechnique = Coded("depth-technique", "shallow", "deep");
    public static readonly Concept HandTechnique = Coded("hand-technique", "sterile", "clean");
    public static readonly Concept PassDuration = Number("pass-duration", Dimension.Duration);
    public static readonly Concept PassCount = Number("pass-count", Dimension.Count);
    public static readonly Concept Preoxygenation = Add("preoxygenation", Dimension.Fraction, true, true, false);
    public static readonly Concept PreoxygenationDuration = Number("preoxygenation-duration", Dimension.Duration);
    public static readonly Concept HyperoxygenationContraindicated = Mark("hyperoxygenation-contraindicated");
    public static readonly Concept Fio2 = Number("fio2", Dimension.Fraction);
    public static readonly Concept Peep = Number("peep", Dimension.Pressure);
    public static readonly Concept Spo2 = Number("spo2", Dimension.Fraction);
    public static readonly Concept HeartRate = Number("heart-rate", Dimension.Rate);
    public static readonly Concept RespiratoryRate = Number("respiratory-rate", Dimension.Rate);
    public static readonly Concept SalineInstilled = Add("saline-instilled", Dimension.Volume, true, true, false);
    public static readonly Concept SuctionIndication = Add("suction-indication", Dimension.Code, true, false, true,
        "coarse-breath-sounds", "visible-secretions", "audible-secretions", "sawtooth-flow", "raised-peak-pressure", "low-tidal-volume",
        "falling-spo2", "rising-oxygen-need", "rising-carbon-dioxide", "increased-work-of-breathing", "apnoea-or-bradycardia",
        "raised-airway-resistance", "restlessness", "suspected-aspiration", "specimen", "patency-check", "before-extubation", "patient-request");
    public static readonly Concept SecretionAppearance = Coded("secretion-appearance",
        "clear", "white", "yellow", "green", "brown", "grey", "rusty", "purulent", "frothy", "mucoid", "blood-streaked", "frank-blood");
    public static readonly Concept SecretionAmount = Coded("secretion-amount", "none", "scanty", "moderate", "copious");
    public static readonly Concept SecretionConsistency = Coded("secretion-consistency", "thin", "thick");
    public static readonly Concept SuctionReaction = Coded("suction-reaction",
        "none", "desaturation", "bradycardia", "tachycardia", "arrhythmia", "bleeding", "hypotension", "hypertension", "bronchospasm");
    public static readonly Concept VentilatorDisconnected = Mark("ventilator-disconnected");
    public static readonly Concept AirwayAssessed = Mark("airway-assessed");
    public static readonly Concept AllowanceReason = Add("allowance-reason", Dimension.Code, true, false, true,
        "thick-secretions", "suspected-obstruction", "emergency", "lung-injury", "raised-intracranial-pressure", "bleeding-risk",
        "shallow-ineffective", "order-specific", "other-with-text");
    public static readonly Concept CuffPressure = Number("cuff-pressure", Dimension.Pressure);
    public static readonly Concept IntracranialPressureMonitored = Mark("intracranial-pressure-monitored");
    public static readonly Concept LungInjury = Mark("lung-injury");
    public static readonly Concept BleedingRisk = Mark("bleeding-risk");
    public static readonly Concept SurfactantGiven = Mark("surfactant-given");
    public static readonly Concept BodyWeight = Number("body-weight", Dimension.Weight);
    public static readonly Concept GestationalAgeAtBirth = Number("gestational-age-at-birth", Dimension.Duration);

    // ── What only resources themselves carry ──

    /// <summary>Patient.birthDate, about the patient; a date of any precision.</summary>
    public static readonly Concept BirthDate = Own("birth-date", Dimension.Date);

    /// <summary>Device.type as a code of CodeSystem device-kind, about the device.</summary>
    public static readonly Concept DeviceKind = Own("device-kind", Dimension.Code, "tracheal-tube", "tracheostomy-tube", "inner-cannula",
        "suction-catheter", "closed-suction-catheter", "vacuum-regulator", "wall-vacuum-outlet", "other");

    /// <summary>DeviceMetric.category, about the metric.</summary>
    public static readonly Concept MetricCategory = Own("metric-category", Dimension.Code, "measurement", "setting", "calculation", "unspecified");

    /// <summary>DeviceMetric.type: what the metric's rows mean where their own code says less; the answer is a concept's code.</summary>
    public static readonly Concept MetricMeans = Own("metric-means", Dimension.Code, "vacuum-pressure", "vacuum-set", "full-line-vacuum", "cuff-pressure");

    /// <summary>Encounter.class, about the encounter (HL7 v3 ActCode: IMP, ACUTE, NONAC, OBSENC and EMER are the first two).</summary>
    public static readonly Concept EncounterClass = Own("encounter-class", Dimension.Code, "inpatient", "emergency", "elsewhere");

    /// <summary>Encounter.period, about the encounter: start and end of the stay.</summary>
    public static readonly Concept EncounterPeriod = Own("encounter-period", Dimension.YesNo);

    /// <summary>An order for airway suction: its status in R4's request-status value set. Effective from authoredOn. About the order.</summary>
    public static readonly Concept OrderStatus = Own("order-status", Dimension.Code,
        "draft", "active", "on-hold", "revoked", "completed", "entered-in-error", "unknown");

    /// <summary>Order.intent; the answers not listed are kept as <c>proposal</c>, which is not judged.</summary>
    public static readonly Concept OrderIntent = Own("order-intent", Dimension.Code,
        "order", "original-order", "reflex-order", "filler-order", "instance-order", "proposal");

    /// <summary>Interval of suctioning an order states, hours.</summary>
    public static readonly Concept OrderInterval = Own("order-interval", Dimension.Duration);

    /// <summary>The order says as needed (yes) or says it is not (no).</summary>
    public static readonly Concept OrderAsNeeded = Own("order-as-needed", Dimension.YesNo);

    /// <summary>Suction falls due by time whatever is found (yes), or the order says otherwise (no); no fact where neither is said.</summary>
    public static readonly Concept OrderByClock = Own("order-by-clock", Dimension.YesNo);

    public static readonly Concept OrderVacuumLow = Own("order-vacuum-low", Dimension.Pressure);

    /// <summary>Upper vacuum an order allows: the end of a range, a cap, or a single value.</summary>
    public static readonly Concept OrderVacuumHigh = Own("order-vacuum-high", Dimension.Pressure);

    /// <summary>The order forbids suction altogether.</summary>
    public static readonly Concept OrderDoNotSuction = Own("order-do-not-suction", Dimension.YesNo);

    /// <summary>
    /// A Flag of ours that stands inactive on the server, about its patient; the fact's group is the flag's key. Whether a
    /// person or we ourselves ended it is told by the version.
    /// </summary>
    public static readonly Concept FlagInactive = Own("flag-inactive", Dimension.YesNo);

    /// <summary>A DetectedIssue of ours that carries a mitigation, about its patient; the fact's group is the issue's key.</summary>
    public static readonly Concept IssueMitigated = Own("issue-mitigated", Dimension.YesNo);

    /// <summary>Something an order says was not read: a text, or a coded part that is not known or has no value that can be read.</summary>
    public static readonly Concept OrderUnread = Own("order-unread", Dimension.Code);

    /// <summary>
    /// Of an order on hold that had an earlier version: seconds from when it was written to when the version that says so was saved.
    /// Before that it was not known to be on hold.
    /// </summary>
    public static readonly Concept OrderHeldAfter = Own("order-held-after", Dimension.Duration);

    /// <summary>
    /// What the text of an order asks for under a condition, which is its reason, so that no check judges it: saline (yes), or a depth. It may still
    /// differ from what is structured.
    /// </summary>
    public static readonly Concept OrderUnderCondition = Own("order-under-condition", Dimension.Code, "shallow", "deep");

    private static readonly ConceptInfo[] Frozen = [.. Rows];
    private static readonly Dictionary<string, Concept> ByCode = Frozen
        .Select((info, index) => (info, index))
        .ToDictionary(pair => pair.info.Code, pair => new Concept((ushort)pair.index), StringComparer.Ordinal);

    /// <summary>All concepts in order; a concept's index points here.</summary>
    public static ReadOnlySpan<ConceptInfo> Table => Frozen;

    public static int Count => Frozen.Length;

    public static ConceptInfo Info(Concept concept) => Frozen[concept.Index];

    public static bool TryFind(string code, out Concept concept) => ByCode.TryGetValue(code, out concept);

    /// <summary>The concept of a code of the public code system; false for names of our own.</summary>
    public static bool TryFindInput(string code, out Concept concept) => ByCode.TryGetValue(code, out concept) && Frozen[concept.Index].IsInput;

    private static Concept Number(string code, Dimension dimension) => Add(code, dimension, true, false, false);

    private static Concept Mark(string code) => Add(code, Dimension.YesNo, true, false, false);

    private static Concept Coded(string code, params string[] answers) => Add(code, Dimension.Code, true, false, false, answers);

    private static Concept Own(string code, Dimension dimension, params string[] answers) => Add(code, dimension, false, false, false, answers);

    private static Concept Add(string code, Dimension dimension, bool isInput, bool alsoYesNo, bool freeText, params string[] answers)
    {
        Rows.Add(new ConceptInfo(code, dimension, isInput, alsoYesNo, freeText, answers));
        return new Concept((ushort)(Rows.Count - 1));
    }
}
