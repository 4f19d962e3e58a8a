using System.Net;
using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.Host.Service;

/// <summary>The doors of the service.</summary>
internal static class ServiceEndpoints
{
    public static void Map(WebApplication app, ServicePlan plan)
    {
        app.MapGet("/health/live", static () => Results.Text("live"));
        app.MapGet("/health/ready", static (ServiceState state, IntakeHealth health) =>
            state.IsReady ? Results.Text(string.Join('\n', ["ready", .. health.Standing.Select(one => $"{one.Code} {one.Where}")])) : Results.Text("asking the server for the first time", statusCode: StatusCodes.Status503ServiceUnavailable));
        app.MapGet("/", static async (HttpContext context, ServicePlan plan) =>
        {
            context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";
            context.Response.Headers.XContentTypeOptions = "nosniff";
            context.Response.Headers.CacheControl = "no-store";
            return Results.Content(Page(await StandingFindings.ReadAsync(context.RequestServices.GetRequiredService<ILedger>(), context.RequestAborted), plan), "text/html", Encoding.UTF8);
        });
        app.MapPost("/notify/{channel}", Answer);
        app.MapPut("/notify/{channel}/{type}/{id}", Answer);
        app.MapDelete("/notify/{channel}/{type}/{id}", Answer);
        if (plan.IsDemo)
        {
            app.MapFhirSandbox("/fhir");
        }
    }

    private static IResult Answer(string channel, NotifyDoor door, HttpContext context) =>
        Results.StatusCode(door.Answer(channel, context.Request.Headers.Authorization, context.Request.ContentLength));

    private static string Page(IReadOnlyList<StandingRow> rows, ServicePlan plan)
    {
        var html = new StringBuilder();
        html.Append("<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>AirwayGuard: what stands</title><style>")
            .Append("body{font:1rem/1.5 system-ui,sans-serif;margin:2rem;max-width:80rem}table{border-collapse:collapse;width:100%}")
            .Append("th,td{text-align:left;vertical-align:top;padding:.4rem .6rem;border-bottom:1px solid #999}</style></head><body><h1>What stands</h1>");
        html.Append($"<p>Rule set {Text(plan.Basis.Rules.Name)} {Text(plan.Basis.Rules.Version)}, {(plan.Basis.Live ? "live" : "silent: nothing is written to the server")}. ")
            .Append("Limits need local approval; local policy and licensed practice decide. This is no alarm and no treatment advice.</p>");
        html.Append("<table><thead><tr><th scope=\"col\">Patient</th><th scope=\"col\">Check</th><th scope=\"col\">Severity</th><th scope=\"col\">What stands</th><th scope=\"col\">What would clear it</th></tr></thead><tbody>");
        foreach (var row in rows)
        {
            html.Append($"<tr><td>{Text(row.Patient)}</td><td>{Text(row.Check)}</td><td>{Text(row.Severity)}</td><td>{Text(row.Say)}</td><td>{Text(row.Clears(plan.Basis.Rules))}</td></tr>");
        }

        return html.Append(rows.Count == 0 ? "<tr><td colspan=\"5\">Nothing stands. That is not \"all well\": only what is charted is judged.</td></tr>" : "")
            .Append("</tbody></table></body></html>").ToString();
    }

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
