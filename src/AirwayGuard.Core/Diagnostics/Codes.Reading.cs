namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // What could not be read at all: 20xx.
    public static readonly DiagnosticCode PathMissing = new("AG2001", "Path not found", "Check the path; give files of FHIR JSON, NDJSON, or folders of them.");
    public static readonly DiagnosticCode NotARegularFile = new("AG2002", "Not a regular file", "Pipes, devices and links that leave the folder are not followed; copy the file in.");
    public static readonly DiagnosticCode NotJson = new("AG2003", "Not well-formed JSON", "Send one JSON resource, a Bundle, or one resource per line (NDJSON).");
    public static readonly DiagnosticCode UnknownResourceType = new("AG2004", "Not a resource type of FHIR R4", "Check resourceType; other FHIR releases are not read.");
    public static readonly DiagnosticCode NoSubject = new("AG2005", "No subject", "Name the patient, device or location the row is about.");
    public static readonly DiagnosticCode TimeWithoutOffset = new("AG2006", "Time without offset", "Send times with a zone offset; none is assumed.");
    public static readonly DiagnosticCode TooLarge = new("AG2007", "Too large or too deep", "An entry may have 5 MB and a nesting depth of 64.");
    public static readonly DiagnosticCode NotAResource = new("AG2008", "Not a FHIR resource", "A resource is a JSON object with a resourceType.");
    public static readonly DiagnosticCode Unreadable = new("AG2009", "Resource could not be read", "Compare it with the R4 definition of its type.");
    public static readonly DiagnosticCode NothingToRead = new("AG2010", "Nothing to read", "Give a folder with FHIR JSON in files whose names end in .json or .ndjson.");
    public static readonly DiagnosticCode NoTime = new("AG2011", "No usable time", "Send effectiveDateTime, effectivePeriod or effectiveInstant with a time of day.");

    // What was read but not used as it stands: 21xx.
    public static readonly DiagnosticCode ValueUnreadable = new("AG2101", "Value could not be read", "Chart the value alone: a number with its unit, a listed answer, or a date as FHIR writes dates (1961, 1961-05, 1961-05-02).");
    public static readonly DiagnosticCode AnswerUnmatched = new("AG2102", "Answer not known", "Map the answer with a ConceptMap, or send a code of the airway-care-answer code system; docs/charting.md lists them.");
    public static readonly DiagnosticCode UnknownUnit = new("AG2103", "Unit not known", "Send a UCUM unit that fits the value.");
    public static readonly DiagnosticCode UnitMissing = new("AG2104", "Unit missing", "Send the unit, or give the row a default unit in the ConceptMap.");
    public static readonly DiagnosticCode BothSigns = new("AG2105", "Vacuum charted with both signs", "Find out which sign the row is meant to have; the magnitude was judged.");
    public static readonly DiagnosticCode OxygenDoubtful = new("AG2106", "Inspired oxygen is neither a fraction nor a percentage", "Chart 0.21 to 1 or 21 to 100 %.");
    public static readonly DiagnosticCode FutureBirthDate = new("AG2107", "Dated before the birth date of its patient", "Correct the time of the row, or the birth date; what the problem names was not judged by age, the rest was.");
    public static readonly DiagnosticCode EnteredInError = new("AG2108", "Entered in error", "Nothing to do: it was not used.");
    public static readonly DiagnosticCode DurationsDiffer = new("AG2109", "Two durations of one pass differ", "The longer one was judged; chart one.");
    public static readonly DiagnosticCode ModifierUnknown = new("AG2110", "Carries a modifier extension that is not understood", "It was not used, since the modifier may change its meaning.");
    public static readonly DiagnosticCode StatusUnknown = new("AG2111", "Status missing or not known", "It was not used; send a status of the R4 value set.");
    public static readonly DiagnosticCode AfterAsOf = new("AG2112", "Begins after the time judged", "Nothing to do: left out as asked by --as-of.");
    public static readonly DiagnosticCode TestData = new("AG2113", "Marked as test data", "Nothing to do: resources with the security label HTEST are not judged.");
    public static readonly DiagnosticCode UnitOfOtherKind = new("AG2114", "Unit does not fit the value", "Send the value in a unit of its kind.");
    public static readonly DiagnosticCode MappedInexact = new("AG2115", "Code was mapped inexactly", "The tube diameter was taken as the inner one; map the row as equivalent once that is confirmed.");
    public static readonly DiagnosticCode MemberDoubled = new("AG2116", "Member given twice", "The last one was used, as JSON readers do.");
    public static readonly DiagnosticCode ValuePlausibility = new("AG2117", "Value outside what is possible", "It was not used; correct the charting.");
    public static readonly DiagnosticCode TimingUnread = new("AG2118", "Timing could not be read", "Send occurrenceTiming with frequency, period and periodUnit.");
    public static readonly DiagnosticCode UnitsDiffer = new("AG2119", "Unit's text and code differ", "Send one unit: the printed text and the UCUM code of a value must mean the same.");
    public static readonly DiagnosticCode ValueMissing = new("AG2120", "Value missing", "Chart the value, or take the row back if there is none; what needs it is cannot-tell or not charted, never a pass.");
    public static readonly DiagnosticCode OwnCodeUnknown = new("AG2121", "No such code in a code system of AirwayGuard", "It was not read; correct the code: docs/charting.md lists them.");
    public static readonly DiagnosticCode CodingsDiffer = new("AG2122", "Codings of one row mean different things", "It was not judged; leave one of the codings, or map them to one concept.");
    public static readonly DiagnosticCode AnswersDiffer = new("AG2123", "Codings of one answer contradict each other", "It was not used, save a reaction beside none; leave one of the codings, or map them to one answer. A device of two kinds is of neither.");
    public static readonly DiagnosticCode ValueAgainstStatus = new("AG2124", "Value in a row that is cancelled, or only registered", "It was not used; send the status that holds: preliminary, final, amended or corrected.");
    public static readonly DiagnosticCode LatestTimeAlone = new("AG2125", "Latest time stands alone", "Correct the time if it is mistyped, or pass --as-of with the time to judge at: what had not been charted by then was judged as missing.");
    public static readonly DiagnosticCode UsesDiffer = new("AG2126", "Two uses of suction are said in one row, or beside it at one instant", "Chart one use; until then nobody can tell what was suctioned, and what needs it cannot tell.");
    public static readonly DiagnosticCode DiametersDiffer = new("AG2127", "Two inner diameters of one tube at one instant differ", "Correct one of them; from then on the diameter counts as unknown until another is charted.");
    public static readonly DiagnosticCode UseBesidePass = new("AG2128", "A row beside a pass says that another suction was meant", "The pass was judged as one of the airway, since its own row does not say so; chart the use in the pass's own row.");
    public static readonly DiagnosticCode OtherSuction = new("AG2129", "Passes of another suction than the airway's", "Nothing to do if that is so: they are kept and not judged.");
    public static readonly DiagnosticCode FutureCalibration = new("AG2130", "Calibration dated in the future", "Correct the date; until it has come nobody can tell by it how long ago the regulator was calibrated.");

    public static readonly DiagnosticCode SuctionUnclear = new("AG2131", "A Procedure's text does not say what was suctioned", "It was not read as a pass; code it as suction of the airway or of another part, or say so in its text.");
    public static readonly DiagnosticCode FullLineOfPatient = new("AG2132", "Full-line vacuum charted on a patient", "It was not judged: it is an outlet's; chart it on the Location or the Device of the outlet.");
    public static readonly DiagnosticCode OrderOfAnotherPatient = new("AG2133", "Tied to an order of another patient", "The tie was not used, and each was judged for its own patient alone; correct the reference, the shared number, or the subject.");

    public static readonly DiagnosticCode ErrorProneForm = new("AG2140", "Error-prone way of writing in an order", "Write 8 and not 8.0, 0.5 and not .5, mL and not cc, daily and not qd: others have read such forms as something else.");

    // What is wrong with a site's maps: 22xx.
    public static readonly DiagnosticCode MapNotJson = new("AG2201", "Not a map", "Give a FHIR R4 ConceptMap or NamingSystem as JSON.");
    public static readonly DiagnosticCode MapSourceMissing = new("AG2202", "Source missing in a map", "Name the source system of each group and the code of each element.");
    public static readonly DiagnosticCode MapTargetUnknown = new("AG2203", "Target of a map not known", "Map to one code of airway-care, airway-care-answer, device-kind or UCUM.");
    public static readonly DiagnosticCode MapSourceTwice = new("AG2204", "Code mapped twice in one map", "Keep one element for each code of a system.");
    public static readonly DiagnosticCode MapUnit = new("AG2205", "Unit of a map not known", "Give a UCUM unit that fits the concept.");
    public static readonly DiagnosticCode MapEquivalence = new("AG2206", "Equivalence missing in a map", "R4 asks for an equivalence; unmatched leaves a row out on purpose.");
    public static readonly DiagnosticCode MapMissing = new("AG2208", "Map not found", "Check the path; a map is one file, a FHIR R4 ConceptMap or NamingSystem as JSON.");
    public static readonly DiagnosticCode MapProperty = new("AG2207", "Property of a map not understood", "Use default-unit, pass-number or setting in product, row in dependsOn, each with a value it allows; docs/charting.md shows them.");
    public static readonly DiagnosticCode MapStatus = new("AG2209", "Status of a map forbids its use", "Give the map that took its place, or set its status to active.");

    // What a file or stream of resources may not hold: 23xx.
    public static readonly DiagnosticCode NestedBundle = new("AG2301", "Bundle within a Bundle", "Send its entries in a Bundle or file of their own.");
    public static readonly DiagnosticCode EntryEmpty = new("AG2302", "Entry without a resource", "Nothing was read from it.");
}
