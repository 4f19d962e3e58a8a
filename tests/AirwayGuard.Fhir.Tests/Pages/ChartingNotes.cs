namespace AirwayGuard.Fhir.Tests.Pages;

/// <summary>A note for every concept of the public code system, in the order of the page.</summary>
internal static class ChartingNotes
{
    private const string Ended = "2026-03-01T09:55:12+11:00";
    private const string Regulator = "Device/regulator-4";

    public static readonly IReadOnlyList<ChartingNote> All =
    [
        new("suction-pass", "One pass of a catheter down the airway. The row's period gives its start and end; `false` is no pass.", "", "absent") { Until = Ended },
        new("vacuum-pressure", "A reading of the regulator. Either sign; kept as magnitude below ambient. Say the unit: without one, and without a default from the map, it is doubtful.", Quantity("110", "mm[Hg]"), "110 mm[Hg]") { Device = Regulator },
        new("vacuum-set", "What the regulator is set to. A vacuum-pressure row whose device is a DeviceMetric of category setting is read so too.", Quantity("100", "mm[Hg]"), "100 mm[Hg]") { Device = Regulator },
        new("vacuum-reading-method", "How the vacuum was read: with the line occluded, or flowing. A component of the reading, or a row at its instant.", Answer("occluded"), "occluded"),
        new("regulator-mode", "What the regulator is switched to.", Answer("regulated"), "regulated") { Device = Regulator },
        new("suction-use", "What the suction is used for. Anything but airway is kept and not judged, and an answer that cannot be read leaves it open. As a component it is that of its own row, a suction-pass too; as a row of its own it is that of the vacuum and mode of the same instant only, never of earlier or later ones: chart it with each reading, or once on the Device. A row that is part of a Procedure and says another use than its code leaves open what was suctioned; so does one at the instant of a reading that is tied to a pass of the airway.", Answer("airway"), "airway") { Device = Regulator },
        new("full-line-vacuum", "An outlet's full-line reading, occluded. About a Location or Device; never read as vacuum-pressure.", Quantity("420", "mm[Hg]"), "420 mm[Hg]") { Subject = "Location/bed-4" },
        new("calibrated-on", "The date on which a regulator was calibrated. DeviceMetric.calibration.time is read so too.", "\"valueDateTime\":\"2026-01-15\"", "date 20260115/8") { Subject = Regulator },
        new("airway-type", "The airway in place; `none` ends it. A new value, size or Device starts another.", Answer("tracheal-tube"), "tracheal-tube"),
        new("tube-inner-diameter", "Inner diameter of the tube. A bare size is never taken for millimetres.", Quantity("8.0", "mm"), "8.0 mm"),
        new("inner-cannula-diameter", "Inner diameter of the inner cannula, which is in place unless charted otherwise; 0 says that there is none.", Quantity("7.0", "mm"), "7.0 mm"),
        new("inner-cannula-in-place", "Whether an inner cannula is in place.", "\"valueBoolean\":true", "yes"),
        new("tube-length", "Length of the tube, from its open end to its tip.", Quantity("30", "cm"), "30 cm"),
        new("adapter-length", "Length of what is between the tube's open end and where the catheter goes in.", Quantity("4.5", "cm"), "4.5 cm"),
        new("insertion-depth", "How far the catheter went, from the open end of tube or adapter.", Quantity("31", "cm"), "31 cm"),
        new("tube-depth", "The tube's mark at lips, teeth or nares. Never judged as insertion-depth.", Quantity("22", "cm"), "22 cm"),
        new("catheter-size", "Outside diameter of the catheter in French; a third of a millimetre each (ISO 8836).", "\"valueString\":\"12 Fr\"", "12 [Ch]"),
        new("suction-system", "Open, or closed (in-line).", Answer("closed"), "closed"),
        new("depth-technique", "Shallow, to the tube's end, or deep, until resistance is met.", Answer("shallow"), "shallow"),
        new("hand-technique", "Sterile or clean.", Answer("sterile"), "sterile"),
        new("pass-duration", "From insertion to removal of the catheter. 0 is told (AG2117), and how long the pass took is then not known.", Quantity("12", "s"), "12 s"),
        new("pass-count", "How many passes a row stands for, a whole number; 0 says that there was none.", "\"valueInteger\":2", "2"),
        new("preoxygenation", "Oxygen given before a pass: whether, or how much; with a period, also how long.", Quantity("100", "%"), "100 %") { Until = Ended },
        new("preoxygenation-duration", "How long oxygen was given before a pass.", Quantity("60", "s"), "60 s"),
        new("hyperoxygenation-contraindicated", "More oxygen is not to be given to this patient.", "\"valueBoolean\":true", "yes"),
        new("fio2", "Inspired oxygen. 0.21 to 1 is a fraction, 21 to 100 a percentage, with or without unit; between them it is doubtful and not used.", Quantity("40", "%"), "40 %"),
        new("peep", "Positive end-expiratory pressure, set or measured.", Quantity("8", "cm[H2O]"), "8 cm[H2O]"),
        new("spo2", "Oxygen saturation.", Quantity("96", "%"), "96 %"),
        new("heart-rate", "Heart or pulse rate.", Quantity("84", "/min"), "84 /min"),
        new("respiratory-rate", "The patient's own breaths.", Quantity("18", "/min"), "18 /min"),
        new("saline-instilled", "Saline instilled for suction: how much, or whether. A number without a unit, or words that are neither, leave its checks open.", Quantity("2", "mL"), "2 mL"),
        new("suction-indication", "Why suction was done. Other text counts unless it only says that suction was due.", Answer("visible-secretions"), "visible-secretions"),
        new("secretion-appearance", "What came up.", Answer("white"), "white"),
        new("secretion-amount", "How much came up.", Answer("moderate"), "moderate"),
        new("secretion-consistency", "Thin or thick.", Answer("thin"), "thin"),
        new("suction-reaction", "What the patient did with suction. Words that are no listed answer are not used: where no other reaction is charted with the pass, its checks are open.", Answer("none"), "none"),
        new("ventilator-disconnected", "The ventilator was disconnected for the pass.", "\"valueBoolean\":false", "no"),
        new("airway-assessed", "The airway was assessed for need of suction.", "\"valueBoolean\":true", "yes"),
        new("allowance-reason", "Why a limit was not kept. Other text counts as for suction-indication.", Answer("thick-secretions"), "thick-secretions"),
        new("cuff-pressure", "Pressure in the tube's cuff. Without a unit it is not used, and its check is open.", Quantity("25", "cm[H2O]"), "25 cm[H2O]"),
        new("intracranial-pressure-monitored", "Intracranial pressure is monitored; true until charted false or the stay ends.", "\"valueBoolean\":true", "yes"),
        new("lung-injury", "The lungs are injured; true until charted false or the stay ends.", "\"valueBoolean\":true", "yes"),
        new("bleeding-risk", "The patient bleeds easily; true until charted false or the stay ends.", "\"valueBoolean\":true", "yes"),
        new("surfactant-given", "Surfactant was given; its time matters.", "\"valueBoolean\":true", "yes"),
        new("body-weight", "Body weight; holds 7 days, of a neonate 48 hours.", Quantity("3.2", "kg"), "3.2 kg"),
        new("gestational-age-at-birth", "Weeks of gestation at birth.", Quantity("31", "wk"), "31 wk"),
    ];

    private static string Quantity(string number, string code) =>
        $$"""
        "valueQuantity":{"value":{{number}},"system":"http://unitsofmeasure.org","code":"{{code}}"}
        """;

    private static string Answer(string code) =>
        $$"""
        "valueCodeableConcept":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"{{code}}"}]}
        """;
}
