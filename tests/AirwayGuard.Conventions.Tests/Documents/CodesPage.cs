using System.Text;

namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>The page of all diagnostic codes, as it must read.</summary>
internal static class CodesPage
{
    public const string File = "docs/codes.md";

    /// <summary>Set to 1, the tests rewrite the page instead of comparing it.</summary>
    public const string Switch = "AIRWAYGUARD_WRITE_DOCS";

    private static readonly string[] Areas =
        ["AG1 Configuration", "AG2 Reading", "AG3 Rule sets", "AG4 Intake", "AG5 Write-back", "AG6 Audit", "AG7 The demo's FHIR server", "AG8 CDS Hooks"];

    public static string Write()
    {
        var page = new StringBuilder();
        page.Append(
            $"""
            # Diagnostic codes

            Every message of AirwayGuard begins with one of these codes; only a fault of a rule set begins with its file, line and column.
            A code never changes its meaning, so it can be searched for, counted and put into a local procedure. Messages name the resource, file or setting concerned and quote at most a unit or
            a code, never what was charted.

            This page is written from `src/AirwayGuard.Core/Diagnostics/Codes.*.cs` by the conventions tests with
            `{Switch}=1`; do not edit it by hand.

            """.ReplaceLineEndings("\n"));
        foreach (var area in Areas)
        {
            var codes = KnownCodes.All.Where(it => it.Code.Id.StartsWith(area[..3], StringComparison.Ordinal)).ToList();
            if (codes.Count == 0)
            {
                continue;
            }

            page.Append($"\n## {area}\n\n| code | what is wrong | what to do |\n|---|---|---|\n");
            foreach (var (_, code) in codes)
            {
                page.Append($"| {code.Id} | {Cell(code.Title)} | {Cell(code.Advice)} |\n");
            }
        }

        return page.ToString();
    }

    private static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal);
}
