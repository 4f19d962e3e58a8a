using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Host.Service.Metrics;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;

namespace AirwayGuard.Host.Service;

/// <summary>The doors of the service.</summary>
internal static class ServiceEndpoints
{
    public static void Map(WebApplication app, ServicePlan plan)
    {
        var doors = new OwnDoors(plan);
        app.Use(NoticeRefusals.WatchAsync);
        app.Use(doors.PassAsync);
        OwnRefusals.Explain(app);
        app.Use(OwnRefusals.CatchAsync);
        app.UseRouting();
        app.MapGet("/health/live", static () => Results.Text("live"));
        app.MapGet("/health/ready", Ready);
        app.MapGet("/metrics", static async (ServiceMetrics metrics, CancellationToken stop) => Results.Text(await metrics.ReadAsync(stop), PrometheusText.ContentType));
        app.MapGet("/", Page);
        app.MapPost("/notify/{channel}", Answer);
        app.MapPut("/notify/{channel}/{type}/{id}", Answer);
        app.MapDelete("/notify/{channel}/{type}/{id}", Answer);
        HookDoors.Map(app);
        if (plan.IsDemo)
        {
            app.MapFhirSandbox("/fhir");
        }
    }

    // The ledger is no parameter: its verb BindAsync would be taken for one that binds parameters.
    private static async Task<IResult> Page(HttpContext context, ServicePlan plan, ServiceState state, IntakeHealth health, ServerContact contact, BacklogReader backlog, Unsent unsent, BasisInForce inForce, TimeProvider clock)
    {
        var (now, basis) = (clock.GetUtcNow(), inForce.Current);
        var ledger = context.RequestServices.GetRequiredService<ILedger>();
        var rows = await StandingFindings.ReadAsync(ledger, basis.Rules, basis.Speaks, now, context.RequestAborted);
        var notTold = await NotTold.ReadAsync(ledger, now, context.RequestAborted);
        var notes = PageNotes.Of(
            state, await backlog.ReadAsync(context.RequestAborted), contact.Silence, health.Troubles, await ParkedCounts.ReadAsync(ledger, context.RequestAborted),
            await ledger.StateAsync(context.RequestAborted), unsent.Told, contact.Open(now));
        return Results.Content(WardPage.Of(rows, notTold, plan, basis, notes, now), "text/html", Encoding.UTF8);
    }

    // What a person has to look at stands below, by code. A server that is away, or a full disk, is no reason to take a service for down
    // that has been ready: another copy of it would have the same, a restart mends neither, and the page that tells of it would be gone.
    private static async Task<IResult> Ready(HttpContext context, ServiceState state, IntakeHealth health, ServerContact contact, StepTroubles steps, LedgerTrust trust, BacklogReader backlog, Unsent unsent, TimeProvider clock)
    {
        if (trust.Lost is { } lost)
        {
            return Results.Text($"{lost.Code.Id} ledger: {lost.Why} {lost.Code.Advice}", statusCode: StatusCodes.Status503ServiceUnavailable);
        }

        var behind = await backlog.ReadAsync(context.RequestAborted);
        var degraded = HealthText.Degraded(contact.Silence, contact.Open(clock.GetUtcNow()), steps.IsFull, unsent.Told);
        if (!state.IsReady)
        {
            return Results.Text(HealthText.NotReady(state, degraded, behind), statusCode: StatusCodes.Status503ServiceUnavailable);
        }

        var parked = await ParkedCounts.ReadAsync(context.RequestServices.GetRequiredService<ILedger>(), context.RequestAborted);
        return Results.Text(HealthText.Ready(degraded, behind, health.Standing, parked));
    }

    private static IResult Answer(string channel, NotifyDoor door, HttpContext context) =>
        Results.StatusCode(door.Answer(channel, context.Request.Headers.Authorization, context.Request.ContentLength));
}
