using System.Globalization;
using System.Text.Json.Nodes;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>A refusal as problem details (RFC 9457), which is what callers of CDS Hooks can show; FHIR servers get OperationOutcomes.</summary>
internal static class HookProblem
{
    public const string MediaType = "application/problem+json";

    /// <summary>Names a kind of problem by its code; nothing is served there, as RFC 9457 §3.1.1 allows.</summary>
    private const string TypeBase = "https://airwayguard.example.org/codes/";

    public static Task WriteAsync(HttpContext context, HookRefusal refusal)
    {
        var response = context.Response;
        response.StatusCode = refusal.Status;
        response.ContentType = MediaType;
        if (refusal.Status == StatusCodes.Status401Unauthorized)
        {
            response.Headers.WWWAuthenticate = "Bearer";
        }

        if (refusal.RetryAfterSeconds is { } seconds)
        {
            response.Headers.RetryAfter = seconds.ToString(CultureInfo.InvariantCulture);
        }

        return response.WriteAsync(BodyOf(refusal).ToJsonString() + "\n", context.RequestAborted);
    }

    private static JsonObject BodyOf(HookRefusal refusal) => new()
    {
        ["type"] = TypeBase + refusal.Code.Id,
        ["title"] = refusal.Code.Title,
        ["status"] = refusal.Status,
        ["detail"] = $"{refusal.Why} {refusal.Code.Advice}",
        ["code"] = refusal.Code.Id,
        ["where"] = refusal.Where,
    };
}
