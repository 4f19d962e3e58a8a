using System.Globalization;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Pages;

/// <summary>The page for those who wire a charting system, as it must read.</summary>
internal static class ChartingPage
{
    public const string File = "docs/charting.md";

    /// <summary>Set to 1, the tests rewrite the page instead of comparing it.</summary>
    public const string Switch = "AIRWAYGUARD_WRITE_DOCS";

    /// <summary>A site's map as the page shows it.</summary>
    public const string SiteMap =
        """
        {"resourceType":"ConceptMap","status":"active","group":[
         {"source":"https://willowmere.example.org/charting/row","target":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","element":[
          {"code":"wall-suction","target":[{"code":"vacuum-pressure","equivalence":"equivalent","product":[
           {"property":"https://airwayguard.example.org/fhir/property/default-unit","value":"mm[Hg]"}]}]},
          {"code":"oral-suction","target":[{"equivalence":"unmatched","comment":"Suction of the mouth is not judged."}]}]},
         {"source":"https://willowmere.example.org/charting/answer","target":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","element":[
          {"code":"inline","display":"In-line catheter","target":[{"code":"closed","equivalence":"equivalent"}]}]}]}
        """;

    private const string Intro =
        """
        # Charting: what is read, and how to wire it

        For those who connect a charting system. Every row is an R4 Observation (or a component of one) whose code leads to one of the
        concepts below. A row of AirwayGuard's own code system is read as it stands; LOINC, SNOMED CT and MDC codes listed here are read
        by the shipped map; everything else needs a line in the site's own map. A row that no map knows is left alone, and counted by `check`;
        so are a procedure or an order in force and a component with a value.

        ## How to wire

        1. Find, in the first table, the checks you want, and chart what they read. What is missing is told as *cannot tell*, never taken for a
           pass. `docs/checks.md` says of each check what it needs, its limits and what ends it.
        2. Every row needs `status`, `code`, `subject`, and a time **with an offset**: `effectiveDateTime` or `effectivePeriod`. Send
           `encounter` too, and `device` for what is read off a regulator. An `entered-in-error` row is taken back.
           A `cancelled` or `registered` row has no value: one that has is told (AG2124) and not used.
        3. Rows of one pass are joined by `partOf` (a Procedure), `hasMember`, components of one Observation, one instant, or the pass's period.
        4. Send the birth date with Patient, the class and period with Encounter, tubes and regulators as Device with DeviceUseStatement. Bands
           of age, inpatient rules and the airway in use hang on them.
        5. Put units on numbers. A vacuum without one is doubtful; any other number without one is not used, unless the map gives its row a unit.
           Where the printed unit and the UCUM code of a value mean different things, it counts as having none.
        6. A row whose value is missing is told (AG2120), and what it would have said is *cannot tell* or not charted. `dataAbsentReason` with
           `not-performed` says that a thing was left undone; any other reason only that the value is missing.
        7. Try it: `dotnet run --project src/AirwayGuard.Host -- check PATH --map FILE`, and read the problems. Each has a code (`docs/codes.md`).

        The problems name the row and say what to do. In the running service a row that is left out is told by code, type and number alone, since
        a row's name would be a patient's: `deploy/README.md` says how to find it.

        ### How to add a site's codes

        Write a FHIR R4 ConceptMap: a group of rows to `…/CodeSystem/airway-care`, one of answers to `…/CodeSystem/airway-care-answer`, one of
        device types to `…/CodeSystem/device-kind`, one of unit texts to UCUM, as needed. `unmatched` leaves a row out on purpose.
        `property/default-unit` is the unit of numbers that come without; `property/setting` (`true`) marks a set value;
        `property/pass-number` (1 to 99) says which pass of its column a row speaks of. `dependsOn` with `property/row` says of which row
        an answer is, where rows share one: *no sputum* is `none` of an amount, and of no airway. A site's map goes before the shipped one.
        """;

    private const string AfterMap =
        """
        Give it to the service as `AirwayGuard:Maps:0`, to `check` with `--map`. Faults in a map are told at the start, all at once,
        and the map is refused: also for a misspelt property of ours, and for a map whose `status` is `retired`.

        ## Which rows for which checks
        """;

    /// <summary>The whole page.</summary>
    public static string Write()
    {
        var page = new StringBuilder(Intro.ReplaceLineEndings("\n"));
        page.Append(CultureInfo.InvariantCulture, $"\n\n```json\n{SiteMap.ReplaceLineEndings("\n")}\n```\n\n{AfterMap.ReplaceLineEndings("\n")}\n\n");
        page.Append("*Reads* are the checks that measure the row; *weighs* those that only hold another limit, or do not judge,\nor let pass, because of it; so the age does where limits differ by band.\n");
        page.Append(CultureInfo.InvariantCulture, $"This page is written from the tables by the tests with `{Switch}=1`; do not edit it by hand.\n");
        page.Append("\n| row | checks that read it | checks that weigh it |\n|---|---|---|\n");
        foreach (var info in Concepts.Table)
        {
            if (info.IsInput)
            {
                var concept = ConceptOf(info);
                page.Append(CultureInfo.InvariantCulture, $"| [{info.Code}](#{info.Code}) | {Links(ChecksOfConcepts.Measuring(concept))} | {Links(ChecksOfConcepts.Weighing(concept))} |\n");
            }
        }

        page.Append("\nRead from the resources themselves, with no row:\n\n| what | checks that read it | checks that weigh it |\n|---|---|---|\n");
        foreach (var info in Concepts.Table)
        {
            if (!info.IsInput)
            {
                var (reads, weighs) = (ChecksOfConcepts.Measuring(ConceptOf(info)), ChecksOfConcepts.Weighing(ConceptOf(info)));
                if (reads.Count + weighs.Count > 0)
                {
                    page.Append(CultureInfo.InvariantCulture, $"| {info.Code} | {Links(reads)} | {Links(weighs)} |\n");
                }
            }
        }

        page.Append("\n## The concepts\n");
        foreach (var note in ChartingNotes.All)
        {
            Entry(page, note);
        }

        LeftOut(page);
        return page.ToString();
    }

    /// <summary>The concept of a row of the table.</summary>
    public static Concept ConceptOf(ConceptInfo info) =>
        Concepts.TryFind(info.Code, out var concept) ? concept : throw new InvalidOperationException($"{info.Code} is not in the table of concepts.");

    private static void Entry(StringBuilder page, ChartingNote note)
    {
        page.Append(CultureInfo.InvariantCulture, $"\n### {note.Code}\n\n{note.Meaning}\n\n");
        if (!Concepts.TryFindInput(note.Code, out var concept))
        {
            throw new InvalidOperationException($"{note.Code} is no concept.");
        }

        var info = Concepts.Info(concept);
        foreach (var form in AcceptedForms.Of(info))
        {
            page.Append(CultureInfo.InvariantCulture, $"- {form}\n");
        }

        var codes = StandardCode.All.Where(code => code.Target == CodeSystems.AirwayCare && code.Means == note.Code).ToList();
        var answers = StandardCode.All.Where(code => code.Target == CodeSystems.AirwayCareAnswer && info.Answers.Contains(code.Means, StringComparer.Ordinal)
            && (code.Row.Length == 0 || code.Row == note.Code)).ToList();
        if (codes.Count == 0)
        {
            page.Append("- no standard code is mapped to it\n");
        }
        else
        {
            page.Append("\n| code | stands for | mapped as |\n|---|---|---|\n");
            foreach (var code in codes)
            {
                page.Append(CultureInfo.InvariantCulture, $"| {code.SystemName} {code.Code} | {code.Display} | {MappedAs(code)} |\n");
            }
        }

        if (answers.Count > 0)
        {
            page.Append("\n| answer's code | stands for | read as |\n|---|---|---|\n");
            foreach (var code in answers)
            {
                page.Append(CultureInfo.InvariantCulture, $"| {code.SystemName} {code.Code} | {code.Display} | `{code.Means}`{(code.Comment.Length > 0 ? $": {code.Comment}" : "")} |\n");
            }
        }

        page.Append(CultureInfo.InvariantCulture, $"\nRead as {note.ReadAs}:\n\n```json\n{ChartingRow.Write(note)}\n```\n");
    }

    private static void LeftOut(StringBuilder page)
    {
        page.Append("\n## Standard codes left out on purpose\n\n| code | stands for | why |\n|---|---|---|\n");
        foreach (var code in StandardCode.All.Where(code => code.Means.Length == 0))
        {
            page.Append(CultureInfo.InvariantCulture, $"| {code.SystemName} {code.Code} | {code.Display} | {code.Comment} |\n");
        }
    }

    private static string MappedAs(StandardCode code) =>
        code.Equivalence + (code.IsSetting ? ", a setting" : "") + (code.Comment.Length > 0 ? $": {code.Comment}" : "");

    private static string Links(IReadOnlyList<string> checks) => string.Join(", ", checks.Select(check => $"[{check}](checks.md#{check})"));
}
