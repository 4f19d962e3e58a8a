using System.Buffers;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Worker.Questions;
using Microsoft.AspNetCore.Http.Features;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>
/// The doors of CDS Hooks: <c>GET /cds-services</c>, <c>POST /cds-services/{id}</c> and <c>POST /cds-services/{id}/feedback</c>. Who calls is
/// asked before a body is read; nothing of a body is logged.
/// </summary>
internal sealed class HookDoors(HookDesk desk, HookCallers callers, HookCounts counts, TimeProvider clock)
{
    public const string Root = "/cds-services";

    /// <summary>Bytes a body may have.</summary>
    public const long LargestBody = 2_000_000;

    public static bool IsAt(PathString path) => path.StartsWithSegments(Root, StringComparison.Ordinal);

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Root, static (HttpContext context, HookDoors doors) => doors.DiscoverAsync(context));
        app.MapPost(Root + "/{id}", static (string id, HttpContext context, HookDoors doors) => doors.AskAsync(id, context));
        app.MapPost(Root + "/{id}/feedback", static (string id, HttpContext context, HookDoors doors) => doors.TellAsync(id, context));
    }

    private async Task DiscoverAsync(HttpContext context)
    {
        if (await callers.RefusalAsync(context) is { } refusal)
        {
            await HookProblem.WriteAsync(context, refusal);
            return;
        }

        var into = new ArrayBufferWriter<byte>();
        DiscoveryJson.Write(desk.Services(), into);
        await WriteAsync(context, into.WrittenMemory);
    }

    private async Task AskAsync(string id, HttpContext context)
    {
        var began = clock.GetTimestamp();
        if (await callers.RefusalAsync(context) is { } refusal)
        {
            await RefuseAsync(context, id, refusal);
            return;
        }

        var (body, tooLarge) = await ReadAsync(context);
        var reply = tooLarge is not null ? HookReply.Refused(tooLarge) : await desk.AnswerAsync(id, body, context.RequestAborted);
        if (reply.Fault is { } fault)
        {
            await RefuseAsync(context, id, Of(fault));
            return;
        }

        var into = new ArrayBufferWriter<byte>();
        CardsJson.Write(reply.Cards, into);
        counts.Answered(id, reply.Cards, clock.GetElapsedTime(began));
        await WriteAsync(context, into.WrittenMemory);
    }

    private async Task TellAsync(string id, HttpContext context)
    {
        if (await callers.RefusalAsync(context) is { } refusal)
        {
            await RefuseAsync(context, id, refusal);
            return;
        }

        var (body, tooLarge) = await ReadAsync(context);
        var reply = tooLarge is not null ? new FeedbackReply(0, 0, tooLarge) : await desk.FeedbackAsync(id, body, context.RequestAborted);
        counts.Told(reply.Kept);
        if (reply.Fault is { } fault)
        {
            await RefuseAsync(context, id, Of(fault));
            return;
        }

        context.Response.StatusCode = StatusCodes.Status200OK;
    }

    private Task RefuseAsync(HttpContext context, string id, HookRefusal refusal)
    {
        counts.Refused(id, refusal.Status);
        return HookProblem.WriteAsync(context, refusal);
    }

    private static HookRefusal Of(HookFault fault) => new(fault.Status, fault.Code, fault.Where.Length == 0 ? "request" : fault.Where, fault.Why);

    private static async Task WriteAsync(HttpContext context, ReadOnlyMemory<byte> json)
    {
        context.Response.ContentType = "application/json; charset=utf-8";
        context.Response.ContentLength = json.Length;
        await context.Response.Body.WriteAsync(json, context.RequestAborted);
    }

    private static async Task<(ReadOnlyMemory<byte> Body, HookFault? TooLarge)> ReadAsync(HttpContext context)
    {
        var into = new MemoryStream((int)Math.Min(context.Request.ContentLength ?? 4096, LargestBody));
        try
        {
            await context.Request.Body.CopyToAsync(into, context.RequestAborted);
        }
        catch (BadHttpRequestException refused) when (refused.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return (default, new HookFault(Codes.HookTooLarge, "body", "The body has more than 2,000,000 bytes.", StatusCodes.Status413PayloadTooLarge));
        }

        catch (BadHttpRequestException refused)
        {
            return (default, new HookFault(Codes.HookUnfinished, "body", "The body broke off, or came too slowly.", refused.StatusCode));
        }

        return (into.GetBuffer().AsMemory(0, (int)into.Length), null);
    }
}
