namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // The document as such: 30xx.
    public static readonly DiagnosticCode RuleSetMissing = new("AG3001", "Rule set not found", "Give the name of a shipped rule set (airwayguard rules list names them) or the path of a file.");
    public static readonly DiagnosticCode RuleSetUnreadable = new("AG3002", "Rule set could not be opened", "Check that the path is a file and may be read.");
    public static readonly DiagnosticCode RuleSetTooLarge = new("AG3003", "Rule set too large", "A rule set may have 1 MB (1,048,576 bytes).");
    public static readonly DiagnosticCode RuleSetNotText = new("AG3004", "Rule set is not UTF-8 text", "Save the document as UTF-8 without control characters.");
    public static readonly DiagnosticCode RuleSetNotYaml = new("AG3005", "Not well-formed YAML", "Indent with spaces, close every bracket and quote; a unit with brackets stands in quotes: \"120 mm[Hg]\".");
    public static readonly DiagnosticCode RuleSetTooDeep = new("AG3006", "Nested too deep", "A rule set may be nested 20 deep.");
    public static readonly DiagnosticCode RuleSetAlias = new("AG3007", "Alias used", "Write the value out; aliases are not read.");
    public static readonly DiagnosticCode RuleSetAnchor = new("AG3008", "Anchor used", "Remove the anchor; nothing may refer to it.");
    public static readonly DiagnosticCode RuleSetTag = new("AG3009", "Tag used", "Remove the tag; values are read by what their key asks for.");
    public static readonly DiagnosticCode RuleSetEmpty = new("AG3010", "Empty document", "Begin with schema: 1, then name, version, title, sources and rules.");
    public static readonly DiagnosticCode RuleSetSeveralDocuments = new("AG3011", "More than one document", "Keep one rule set per file.");
    public static readonly DiagnosticCode RuleSetTooManyFaults = new("AG3012", "More faults than are listed", "Mend the faults listed and lint again.");

    public static readonly DiagnosticCode RuleSetChanging = new("AG3014", "File was changed while it was read", "Save it, and try again once it is whole.");

    // A check of a set, asked for by its id.
    public static readonly DiagnosticCode RuleUnknown = new("AG3013", "No such check in the rule set", "Give an id that rules list names.");

    // Keys and shapes: 31xx.
    public static readonly DiagnosticCode RuleSetKeyDoubled = new("AG3101", "Key given twice", "Keep one of them.");
    public static readonly DiagnosticCode RuleSetKeyUnknown = new("AG3102", "Key not known", "Use one of the keys listed.");
    public static readonly DiagnosticCode RuleSetKeyMissing = new("AG3103", "Key missing", "Add the key.");
    public static readonly DiagnosticCode RuleSetShapeWrong = new("AG3104", "Value has another shape than its key asks for", "Write it as shown.");
    public static readonly DiagnosticCode RuleSetSchemaWrong = new("AG3105", "Schema version not known", "This release reads schema: 1.");
    public static readonly DiagnosticCode RuleSetIdMalformed = new("AG3106", "Not a kebab-case id", "Use lower-case letters, digits and single hyphens, at most 64.");

    // A document that starts from another.
    public static readonly DiagnosticCode BaseMissing = new("AG3107", "Base not found", "Give the name of a shipped rule set, or of a file in the same folder.");
    public static readonly DiagnosticCode BaseElsewhere = new("AG3108", "Base is not in the same folder", "Put the file beside this one and give its name alone.");
    public static readonly DiagnosticCode BaseInCircle = new("AG3109", "Documents start from one another without end", "Start from a document that does not lead back here.");
    public static readonly DiagnosticCode BaseHasFaults = new("AG3110", "Base has faults of its own", "Mend the base first: rules lint names its faults.");
    public static readonly DiagnosticCode BaseSourceChanged = new("AG3111", "Source of the base given another publication", "Give yours an id of its own.");
    public static readonly DiagnosticCode RuleNotOfBase = new("AG3113", "Base has no such check", "Give the id of a check of the base, or state a check of your own whole: id, judges, measure, limits, severity, say, do, clears.");
    public static readonly DiagnosticCode NameOfShipped = new("AG3112", "Name belongs to a shipped rule set", "Give the set a name of its own: findings and sign-offs go by the name.");

    // Measures and limits: 32xx.
    public static readonly DiagnosticCode MeasureUnknown = new("AG3201", "Measure not known", "Use one of the measures listed.");
    public static readonly DiagnosticCode ComparisonMissing = new("AG3202", "Comparison missing", "Name the breach with one of the comparisons listed.");
    public static readonly DiagnosticCode ComparisonDoubled = new("AG3203", "More than one comparison", "Keep one, or list several criteria under anyOf.");
    public static readonly DiagnosticCode ComparisonDoesNotFit = new("AG3204", "Comparison does not fit the measure", "Use a comparison that fits.");
    public static readonly DiagnosticCode LimitUnreadable = new("AG3205", "Limit could not be read", "Write a decimal from 0 to 1,000,000 with a dot, a space and a UCUM unit.");
    public static readonly DiagnosticCode LimitUnitDoesNotFit = new("AG3206", "Unit does not fit the measure", "Use a UCUM unit of the measure's kind.");
    public static readonly DiagnosticCode LimitCodeUnknown = new("AG3207", "Code is none of the measure's", "Use one of the codes listed.");
    public static readonly DiagnosticCode LimitBandMissing = new("AG3208", "Age band without a limit", "Give the band a limit, or write not-judged.");
    public static readonly DiagnosticCode LimitBandDoubled = new("AG3209", "Age band with two limits", "Keep all, or the bands by name.");
    public static readonly DiagnosticCode NoBandJudged = new("AG3210", "No age band is judged", "Give at least one band a limit, or leave the rule out.");
    public static readonly DiagnosticCode LimitSourceMissing = new("AG3211", "Limit without a source", "Name the source the limit rests on.");
    public static readonly DiagnosticCode LimitStatusMissing = new("AG3212", "Limit without a status", "Say how well its source is known.");
    public static readonly DiagnosticCode LimitSourceNotListed = new("AG3213", "Source is not among the document's sources", "List it under sources with its publication.");
    public static readonly DiagnosticCode LimitStatusUnknown = new("AG3214", "Status not known", "Use one of the words listed.");
    public static readonly DiagnosticCode LimitImpossible = new("AG3215", "Vacuum deeper than one atmosphere", "Give a limit of at most 760 mm[Hg]; no vacuum is deeper.");

    public static readonly DiagnosticCode LimitOutOfKind = new("AG3216", "Limit lies beyond what its measure can give", "Look at the number and its unit: a share is 0.50 or 50 %, a percentage has its sign.");

    // Rules: 33xx.
    public static readonly DiagnosticCode RuleIdDoubled = new("AG3301", "Rule id used twice", "Give each rule an id of its own.");
    public static readonly DiagnosticCode JudgesUnknown = new("AG3302", "Not a kind of subject", "Use the words listed.");
    public static readonly DiagnosticCode JudgesNotOfMeasure = new("AG3303", "Measure does not judge this kind of subject", "Judge a kind that every measure of the rule knows.");
    public static readonly DiagnosticCode RuleSeverityUnknown = new("AG3304", "Severity not known", "Use low, moderate or high.");
    public static readonly DiagnosticCode SeverityStepsWrong = new("AG3305", "Severity steps do not rise with the value", "Give each higher word a higher mark, in the limits' one unit, under above or atOrAbove.");
    public static readonly DiagnosticCode StandsUnknown = new("AG3306", "Not a thing to stand on", "Use one of the words listed, or leave the key out.");
    public static readonly DiagnosticCode RuleModeUnknown = new("AG3307", "Mode not known", "Use live or silent.");
    public static readonly DiagnosticCode RuleDurationOutOfRange = new("AG3308", "Duration out of range", "Write a whole number and min or h, within the range.");
    public static readonly DiagnosticCode PlaceholderUnknown = new("AG3309", "Placeholder not known", "Only {value}, {limit} and {band} are filled in.");
    public static readonly DiagnosticCode WithheldByUnknown = new("AG3310", "Withholding check is not in the set", "Name another rule of this document.");
    public static readonly DiagnosticCode WithheldInCircle = new("AG3312", "Checks withhold each other", "Let one of them speak: where both breach, nobody would hear of either.");
    public static readonly DiagnosticCode RuleWithoutMode = new("AG3313", "Check without a mode is silent", "Write mode: live for it to speak once it is promoted, or mode: silent to say that it is meant so. The document is used either way.");
    public static readonly DiagnosticCode RuleIdNearShipped = new("AG3311", "Id is close to that of a shipped check", "If it is meant to be that check, correct it: reports and settings go by the id. An id of your own may stay; the document is used either way.");

    // Circumstances and allowances: 34xx.
    public static readonly DiagnosticCode TightenChangesNothing = new("AG3401", "Tightening is stricter than no band it meets", "Give a stricter limit, or leave it out; only allow may loosen.");
    public static readonly DiagnosticCode CircumstanceDoesNotFit = new("AG3402", "Comparison runs another way than the rule's", "Use the same direction as the rule; strict or inclusive is free.");
    public static readonly DiagnosticCode LimitNeedsOneMeasure = new("AG3403", "Limit could mean either of two measures", "Tighten or allow by a limit only in a rule with one numeric comparison.");
    public static readonly DiagnosticCode GuardCodeUnknown = new("AG3404", "Guard names a code its measure cannot give", "Use one of the codes listed.");
    public static readonly DiagnosticCode AllowWithoutReason = new("AG3405", "Allowance without a reason", "Name the charted reason that allows it.");
    public static readonly DiagnosticCode AllowReasonUnknown = new("AG3406", "Reason not known", "Use a code of allowance-reason.");
    public static readonly DiagnosticCode AllowsCollide = new("AG3407", "Two allowances can hold at once", "Give a reason once for a band, and reasons that can hold together the same limit.");
    public static readonly DiagnosticCode AllowLoosensNothing = new("AG3408", "Allowance loosens no band", "Give a looser limit than the band's own, in a band that is judged.");
    public static readonly DiagnosticCode CircumstanceUnreachable = new("AG3409", "Circumstance can never decide", "Leave it out, or say when it holds where nothing else decides first.");

    // Cases beside a rule set: 35xx.
    public static readonly DiagnosticCode CaseFileEmpty = new("AG3501", "No cases in the document", "Begin with schema: 1, then cases.");
    public static readonly DiagnosticCode CaseValueUnreadable = new("AG3502", "A case charts what its concept does not take", "Write one of the values listed.");
    public static readonly DiagnosticCode CaseTimeUnreadable = new("AG3503", "Time of a case could not be read", "Write it as shown.");
    public static readonly DiagnosticCode CaseWordUnknown = new("AG3504", "Word of a case not known", "Use one of the words listed.");
    public static readonly DiagnosticCode CaseNameUnknown = new("AG3505", "A case names what it does not hold", "Name what stands before it in the case.");
    public static readonly DiagnosticCode CaseNameDoubled = new("AG3506", "Name given twice", "Give each a name of its own.");
    public static readonly DiagnosticCode CaseCheckUnknown = new("AG3507", "A case is about a check that the rule set lacks", "Give an id that rules list names, or leave the case out.");
    public static readonly DiagnosticCode CasesMissing = new("AG3508", "No cases beside the rule set", "Write them into NAME.cases.yaml, or into files of a folder NAME.cases, beside NAME.yaml.");
    public static readonly DiagnosticCode CasesNotRead = new("AG3509", "File lies among cases and is not read", "Name it NAME.cases.yaml or NAME.cases.yml beside the rule set, or put it with such an ending straight into the folder NAME.cases, or elsewhere.");
    public static readonly DiagnosticCode CaseChartsNothing = new("AG3511", "Case charts nothing by the time it is judged", "Chart something before as-of, or leave as-of out.");

    // Sign-offs: 36xx.
    public static readonly DiagnosticCode SignOffNeedsAPerson = new("AG3601", "Sign-off without a name or a reason", "Say who answers for it with --by and why with --reason; name no patient.");
    public static readonly DiagnosticCode SignOffUnitWrong = new("AG3602", "Unit is no place", "Name the place as charting refers to it, such as Location/icu.");
    public static readonly DiagnosticCode SignOffOfFaulty = new("AG3603", "Rule set with faults cannot be promoted", "Mend what rules lint names, and promote it again.");
    public static readonly DiagnosticCode SignOffOfAnother = new("AG3604", "Version was signed off with other content", "Give the changed rule set a new version.");
    public static readonly DiagnosticCode SignOffNothing = new("AG3605", "Nothing to take back", "Look at rules signed for what is in force and what speaks.");
    public static readonly DiagnosticCode SignOffUnreadable = new("AG3606", "Sign-off could not be read", "Use the verbs rules promote, rules withdraw and rules restore.");
    public static readonly DiagnosticCode SignOffNotTaken = new("AG3607", "Service did not take the sign-off up", "See whether the service runs; stopped, the verb writes the ledger itself.");
    public static readonly DiagnosticCode RulesInForceUnread = new("AG3608", "Rule set in force cannot be read by this release", "Start the release it was promoted with, or restore another with rules restore.");
    public static readonly DiagnosticCode SignOffOfSilent = new("AG3610", "Check is silenced by its rule set", "Write mode: live in the rule set, give it a new version, and promote that.");
    public static readonly DiagnosticCode CasesFail = new("AG3609", "Cases beside the rule set do not hold", "Mend the rules or the cases: rules test names what differs.");
}
