using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service.Metrics;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.Host.Service;

/// <summary>The doors of the service (contract.md §6).</summary>
internal static class ServiceEndpoints
{
    public static void Map(WebApplication app, ServicePlan plan)
    {
        var doors = new OwnDoors(plan);
        app.Use(doors.PassAsync);
        app.UseRouting();
        app.MapGet("/health/live", static () => Results.Text("live"));
        app.MapGet("/health/ready", static (ServiceState state) =>
            state.IsReady ? Results.Text("ready") : Results.Text("asking the server for the first time", statusCode: StatusCodes.Status503ServiceUnavailable));
        app.MapGet("/metrics", static async (ServiceMetrics metrics, CancellationToken stop) => Results.Text(await metrics.ReadAsync(stop), PrometheusText.ContentType));
        app.MapGet("/", static async (ServicePlan plan, ILedger ledger, ServiceState state, TimeProvider clock, CancellationToken stop) =>
            Results.Content(WardPage.Of(await StandingFindings.ReadAsync(ledger, plan.Basis.Rules, stop), plan, state.IsReady, clock.GetUtcNow()), "text/html", Encoding.UTF8));
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
}
