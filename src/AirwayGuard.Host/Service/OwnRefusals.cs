using System.Text.Json.Nodes;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Storage;

namespace AirwayGuard.Host.Service;

/// <summary>
/// Refusals at our own doors as OperationOutcomes, since most of who knocks are FHIR servers. What Kestrel refuses before a request is
/// whole (a request line or headers that are too long or malformed: 400, 408, 414, 431) never comes here and has no body.
/// </summary>
internal static partial class OwnRefusals
{
    /// <summary>Gives an answer that has a status and nothing else its code and what to do.</summary>
    public static void Explain(IApplicationBuilder app) =>
        app.UseStatusCodePages(static pages => WriteAsync(pages.HttpContext, pages.HttpContext.Response.StatusCode, CodeOf(pages.HttpContext.Response.StatusCode)));

    /// <summary>What a door meets of a fault of our own is told by its code; a ledger that turns out to be damaged ends the service.</summary>
    public static async Task CatchAsync(HttpContext context, RequestDelegate next)
    {
        try
        {
            if (context.RequestServices.GetRequiredService<LedgerTrust>().Lost is { } lost && !context.Request.Path.StartsWithSegments("/health", StringComparison.OrdinalIgnoreCase))
            {
                await WriteAsync(context, StatusCodes.Status503ServiceUnavailable, lost.Code);
                return;
            }

            await next(context);
        }
        catch (Exception trouble) when (!context.Response.HasStarted && !context.RequestAborted.IsCancellationRequested)
        {
            var services = context.RequestServices;
            services.GetRequiredService<LedgerTrust>().IsLostBy(trouble);
            var code = LedgerFile.TroubleOf(trouble)?.Code ?? (DiskFull.IsMeantBy(trouble) ? Codes.DataFolderFull : Codes.StepFailed);
            LogFailed(services.GetRequiredService<ILogger<OwnDoors>>(), code.Id, trouble.GetType().Name);
            context.Response.Clear();
            await WriteAsync(context, code == Codes.StepFailed ? StatusCodes.Status500InternalServerError : StatusCodes.Status503ServiceUnavailable, code);
        }
    }

    public static Task WriteAsync(HttpContext context, int status, DiagnosticCode code)
    {
        if (HookDoors.IsAt(context.Request.Path))
        {
            // Who asks there is no FHIR server.
            return HookProblem.WriteAsync(context, new HookRefusal(status, code == Codes.StepFailed ? Codes.HookUnanswered : code, "request", code.Title + "."));
        }

        var outcome = new JsonObject
        {
            ["resourceType"] = "OperationOutcome",
            ["issue"] = new JsonArray(new JsonObject
            {
                ["severity"] = "error",
                ["code"] = IssueOf(status),
                ["details"] = new JsonObject { ["text"] = $"{code.Id} {code.Title}" },
                ["diagnostics"] = $"{code.Id}  {code.Title}. {code.Advice}",
            }),
        };
        context.Response.StatusCode = status;
        context.Response.ContentType = "application/fhir+json; charset=utf-8";
        return context.Response.WriteAsync(outcome.ToJsonString() + "\n", context.RequestAborted);
    }

    [LoggerMessage(1007, LogLevel.Error, "{Code}: a door could not answer ({Kind})")]
    private static partial void LogFailed(ILogger logger, string code, string kind);

    /// <summary>What a refusal with this status says at our own doors.</summary>
    public static DiagnosticCode CodeOf(int status) => status switch
    {
        StatusCodes.Status401Unauthorized => Codes.NoticeUnsigned,
        StatusCodes.Status403Forbidden => Codes.OriginForeign,
        StatusCodes.Status404NotFound => Codes.RouteUnknown,
        StatusCodes.Status405MethodNotAllowed => Codes.MethodRefused,
        StatusCodes.Status413PayloadTooLarge => Codes.NoticeTooLarge,
        StatusCodes.Status415UnsupportedMediaType => Codes.NoticeTypeRefused,
        StatusCodes.Status421MisdirectedRequest => Codes.HostNotOurs,
        StatusCodes.Status429TooManyRequests => Codes.NoticesRefused,
        _ => Codes.RequestRefused,
    };

    // R4 valueset-issue-type.html
    private static string IssueOf(int status) => status switch
    {
        StatusCodes.Status401Unauthorized => "login",
        StatusCodes.Status403Forbidden or StatusCodes.Status421MisdirectedRequest => "security",
        StatusCodes.Status404NotFound => "not-found",
        StatusCodes.Status405MethodNotAllowed or StatusCodes.Status415UnsupportedMediaType => "not-supported",
        StatusCodes.Status413PayloadTooLarge => "too-long",
        StatusCodes.Status429TooManyRequests => "throttled",
        StatusCodes.Status500InternalServerError or StatusCodes.Status503ServiceUnavailable => "exception",
        _ => "processing",
    };
}
