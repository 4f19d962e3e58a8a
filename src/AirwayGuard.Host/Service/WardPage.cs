using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Host.Service;

/// <summary>What stands, as a page: works without script, on a phone, by keyboard, in a screen reader and in black and white.</summary>
internal static class WardPage
{
    private const string Style = """
        :root{color-scheme:light dark}
        body{font:1rem/1.5 system-ui,sans-serif;margin:0 auto;padding:1rem 1.5rem 2rem;max-width:82rem}
        h1{font-size:1.6rem;line-height:1.2;margin:.5rem 0}
        .caution{border:2px solid;border-left-width:.6rem;padding:.6rem .9rem;margin:1rem 0}
        .caution p{margin:.2rem 0}
        table{border-collapse:collapse;width:100%;margin:1rem 0}
        caption{text-align:left;padding:.3rem 0}
        th,td{text-align:left;vertical-align:top;padding:.5rem .7rem .5rem 0;border-bottom:1px solid}
        thead th{border-bottom-width:2px}
        th[scope=row]{font-weight:600;white-space:nowrap}
        .severity{white-space:nowrap}
        .high{font-weight:700}
        time{white-space:nowrap}
        footer a{margin-right:1.2rem}
        a:focus-visible,[tabindex]:focus-visible{outline:3px solid;outline-offset:2px}
        @media (max-width:52rem){
        body{padding:.8rem}
        thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
        table,tbody,tr,th,td,caption{display:block}
        tr{border:1px solid;padding:.4rem .8rem;margin:.8rem 0}
        th,td{border:0;padding:.25rem 0}
        tbody [data-label]::before{content:attr(data-label) ": ";font-weight:600}
        th[scope=row]{white-space:normal;overflow-wrap:anywhere}
        }
        """;

    private static readonly string[] Headings = ["Patient", "Severity", "Check", "Value against limit", "Since", "What would clear it"];

    /// <summary>Content-Security-Policy: this page's own style and nothing else, from nowhere.</summary>
    public static readonly string Policy =
        $"default-src 'none'; style-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Style)))}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    public static string Of(IReadOnlyList<StandingRow> rows, IReadOnlyList<NotToldRow> notTold, ServicePlan plan, ServiceBasis basis, PageNotes notes, DateTimeOffset now)
    {
        var html = new StringBuilder();
        html.Append("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">")
            .Append("<title>AirwayGuard: what stands</title><style>").Append(Style).Append("</style></head><body><main>\n<h1>What stands</h1>\n")
            .Append("<div class=\"caution\" role=\"note\" aria-label=\"Caution\"><p><strong>This is no alarm, no diagnosis and no treatment advice.</strong> ")
            .Append("Limits need local approval; local policy and licensed practice decide.</p>")
            .Append("<p>Only what is charted is judged. Nothing listed is not \"all well\".</p></div>\n");
        html.Append(CultureInfo.InvariantCulture, $"<p>Rule set {Text(basis.Rules.Name)} {Text(basis.Rules.Version)}, {Text(VoiceWords.Of(basis))}.");
        html.Append(CultureInfo.InvariantCulture, $" As of {Time(now)}; reload for newer.{(notes.Incomplete.Count == 0 ? "" : $" <strong>{Text(string.Join(' ', notes.Incomplete))}</strong>")}</p>\n");
        Troubles(html, notes.Troubles);
        var shown = rows.Where(row => row.Withheld.Length == 0).ToList();
        Standing(html, [.. shown.Where(row => row.Stands)]);
        Lately(html, [.. shown.Where(row => !row.Stands)]);
        NotToldLately(html, notTold);
        Withheld(html, [.. rows.Where(row => row.Withheld.Length > 0)]);
        return html.Append("</main>\n<footer><nav aria-label=\"Other pages\">")
            .Append(plan.IsDemo ? "<a href=\"/fhir/metadata\">FHIR server of the demo</a>" : "")
            .Append("<a href=\"/health/ready\">Health</a><a href=\"/metrics\">Metrics</a></nav></footer></body></html>\n").ToString();
    }

    // A list that looks calm while nothing can be read or written must not be taken for a calm ward.
    private static void Troubles(StringBuilder html, IReadOnlyList<string> troubles)
    {
        if (troubles.Count == 0)
        {
            return;
        }

        html.Append("<div class=\"caution\" role=\"note\" aria-label=\"Trouble with the service\" id=\"troubles\"><p><strong>The service has trouble: findings may be missing here, or not be on the server.</strong></p>\n<ul>\n");
        foreach (var trouble in troubles)
        {
            html.Append(CultureInfo.InvariantCulture, $"<li>{Text(trouble)}</li>\n");
        }

        html.Append("</ul></div>\n");
    }

    private static void Standing(StringBuilder html, IReadOnlyList<StandingRow> rows)
    {
        if (rows.Count == 0)
        {
            html.Append("<p>No finding stands.</p>\n");
            return;
        }

        Table(html, "standing", string.Create(CultureInfo.InvariantCulture, $"{rows.Count} {(rows.Count == 1 ? "finding stands" : "findings stand")}, highest severity first"), rows, Headings);
    }

    // They raise no Flag and nothing later ends them, so they are kept apart from what stands and leave the page by their age.
    private static void Lately(StringBuilder html, IReadOnlyList<StandingRow> rows)
    {
        if (rows.Count == 0)
        {
            return;
        }

        html.Append(CultureInfo.InvariantCulture, $"<h2>Found in the last {StandingFindings.Lately} hours</h2>\n<p>Each belongs to the one pass, session, setting or order it was found in, raises no Flag, and stays in the record.</p>\n");
        Table(html, "lately", string.Create(CultureInfo.InvariantCulture, $"{rows.Count} found, highest severity first"), rows, Headings[..^1]);
    }

    // Cards of a narrow screen are laid out as blocks, which takes a table's meaning from some browsers: the roles keep it.
    private static void Begin(StringBuilder html, string id, string caption, string[] headings)
    {
        html.Append(CultureInfo.InvariantCulture, $"<table role=\"table\" id=\"{id}\"><caption>{caption}</caption><thead role=\"rowgroup\"><tr role=\"row\">");
        foreach (var heading in headings)
        {
            html.Append(CultureInfo.InvariantCulture, $"<th scope=\"col\" role=\"columnheader\">{heading}</th>");
        }

        html.Append("</tr></thead><tbody role=\"rowgroup\">\n");
    }

    private static void Table(StringBuilder html, string id, string caption, IReadOnlyList<StandingRow> rows, string[] headings)
    {
        Begin(html, id, caption, headings);
        foreach (var row in rows)
        {
            html.Append(CultureInfo.InvariantCulture, $"<tr role=\"row\"><th scope=\"row\" role=\"rowheader\" data-label=\"{Headings[0]}\">{Text(row.Patient)}</th>");
            html.Append(CultureInfo.InvariantCulture, $"<td role=\"cell\" data-label=\"{Headings[1]}\" class=\"severity {Text(row.Severity)}\">{Text(row.Severity)}</td>");
            Cell(html, 2, Text(row.Title));
            Cell(html, 3, Text(row.Say));
            Cell(html, 4, Time(row.Since) + (row.Late ? ", <strong>known late</strong>" : ""));
            if (headings.Length == Headings.Length)
            {
                Cell(html, 5, Text(row.Clears));
            }

            html.Append("</tr>\n");
        }

        html.Append("</tbody></table>\n");
    }

    // What is missing is no pass: the page that lists no finding must not be read as if everything had been judged.
    private static void NotToldLately(StringBuilder html, IReadOnlyList<NotToldRow> rows)
    {
        if (rows.Count == 0)
        {
            return;
        }

        string[] headings = ["Check", "Not charted, or not readable", "Times", "Patients", "Latest"];
        html.Append(CultureInfo.InvariantCulture, $"<h2>Could not be told in the last {StandingFindings.Lately} hours</h2>\n<p>These were not judged: what they need is missing. That is neither a breach nor a pass.</p>\n");
        Begin(html, "not-told", string.Create(CultureInfo.InvariantCulture, $"{rows.Count} {(rows.Count == 1 ? "gap" : "gaps")} in what is charted, most often met first"), headings);
        foreach (var row in rows)
        {
            html.Append(CultureInfo.InvariantCulture, $"<tr role=\"row\"><th scope=\"row\" role=\"rowheader\" data-label=\"{headings[0]}\">{Text(row.Title)}</th>");
            string[] cells = [Text(row.Missing), row.Times.ToString(CultureInfo.InvariantCulture), Text(string.Join(", ", row.Patients)), Time(row.Latest)];
            for (var i = 0; i < cells.Length; i++)
            {
                html.Append(CultureInfo.InvariantCulture, $"<td role=\"cell\" data-label=\"{headings[i + 1]}\">{cells[i]}</td>");
            }

            html.Append("</tr>\n");
        }

        html.Append("</tbody></table>\n");
    }

    // Recorded and not shown on the server: listed, so that nothing is hidden by what another check says or by its age.
    private static void Withheld(StringBuilder html, IReadOnlyList<StandingRow> rows)
    {
        if (rows.Count == 0)
        {
            return;
        }

        html.Append(CultureInfo.InvariantCulture, $"<h2>Withheld</h2>\n<p>{rows.Count} more {(rows.Count == 1 ? "is" : "are")} recorded and not shown on the server.</p>\n<ul id=\"withheld\">\n");
        // The same said of many, as by a rule that is silent, is said once.
        foreach (var same in rows.GroupBy(row => (row.Severity, row.Title, row.Say, row.Withheld)))
        {
            var (severity, title, say, why) = same.Key;
            var whose = string.Join(", ", same.Select(row => $"<strong>{Text(row.Patient)}</strong> since {Time(row.Since)}"));
            html.Append(CultureInfo.InvariantCulture, $"<li>{Text(title)}, {Text(severity)}: {Text(say)} Withheld: {Text(why)}. {whose}.</li>\n");
        }

        html.Append("</ul>\n");
    }

    private static void Cell(StringBuilder html, int column, string content) =>
        html.Append(CultureInfo.InvariantCulture, $"<td role=\"cell\" data-label=\"{Headings[column]}\">{content}</td>");

    private static string Time(DateTimeOffset time) =>
        string.Create(CultureInfo.InvariantCulture, $"<time datetime=\"{time.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'}\">{time.UtcDateTime:yyyy-MM-dd HH:mm} UTC</time>");

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
