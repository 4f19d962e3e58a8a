using System.Text.Json.Nodes;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service;

/// <summary>
/// Refusals at our own doors as OperationOutcomes, since most of who knocks are FHIR servers. What Kestrel refuses before a request is
/// whole (a request line or headers that are too long or malformed: 400, 408, 414, 431) never comes here and has no body.
/// </summary>
internal static class OwnRefusals
{
    /// <summary>Gives an answer that has a status and nothing else its code and what to do.</summary>
    public static void Explain(IApplicationBuilder app) =>
        app.UseStatusCodePages(static pages => WriteAsync(pages.HttpContext, pages.HttpContext.Response.StatusCode, CodeOf(pages.HttpContext.Response.StatusCode)));

    public static Task WriteAsync(HttpContext context, int status, DiagnosticCode code)
    {
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
        _ => "processing",
    };
}
