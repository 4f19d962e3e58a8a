using System.Net;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.AspNetCore.Http.Features;

namespace AirwayGuard.Host.Service;

/// <summary>
/// What is let in at our own doors. They ask for no sign-in, so a page in a browser on this machine, or a foreign name that resolves
/// to it (DNS rebinding), must not be able to use them. The sandbox has doors of its own.
/// </summary>
internal sealed class OwnDoors(ServicePlan plan)
{
    /// <summary>Bytes a body may have, at other doors than those of CDS Hooks: the notices' limit. Their bodies are not read.</summary>
    public const long LargestBody = 1_000_000;

    private static readonly string[] Types = ["application/fhir+json", "application/json", "application/fhir+xml"];

    public async Task PassAsync(HttpContext context, RequestDelegate next)
    {
        if (plan.IsDemo && context.Request.Path.StartsWithSegments("/fhir", StringComparison.Ordinal))
        {
            await next(context);
            return;
        }

        Guard(context.Response.Headers);
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = MostOf(context.Request);
        }

        if (RefusalOf(context.Request) is var (status, code))
        {
            await OwnRefusals.WriteAsync(context, status, code);
            return;
        }

        await next(context);
    }

    /// <summary>Loopback names and addresses, those configured, the one the server notifies, and the one that callers of CDS Hooks know.</summary>
    public bool IsOurs(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase)
        || (IPAddress.TryParse(host.Trim('[', ']'), out var address) && IPAddress.IsLoopback(address))
        || plan.Options.AllowedHosts.Contains(host, StringComparer.OrdinalIgnoreCase)
        || (plan.Options.NotifyAddress is { } notify && host.Equals(notify.Host, StringComparison.OrdinalIgnoreCase))
        || (plan.Hooks.Address is { } asked && host.Equals(asked.Host, StringComparison.OrdinalIgnoreCase));

    private (int Status, DiagnosticCode Code)? RefusalOf(HttpRequest request)
    {
        if (!IsOurs(request.Host.Host))
        {
            return (StatusCodes.Status421MisdirectedRequest, Codes.HostNotOurs);
        }

        if (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method))
        {
            return null;
        }

        var own = $"{request.Scheme}://{request.Host.Value}";
        if (request.Headers.Origin is [{ Length: > 0 } origin] && !string.Equals(origin.TrimEnd('/'), own, StringComparison.OrdinalIgnoreCase))
        {
            return (StatusCodes.Status403Forbidden, Codes.OriginForeign);
        }

        var isHook = HookDoors.IsAt(request.Path);
        if (request.ContentLength > MostOf(request))
        {
            return (StatusCodes.Status413PayloadTooLarge, isHook ? Codes.HookTooLarge : Codes.NoticeTooLarge);
        }

        var hasBody = request.ContentLength > 0 || request.Headers.TransferEncoding.Count > 0;
        var type = (request.ContentType ?? "").Split(';')[0].Trim();
        if (isHook)
        {
            return string.Equals(type, "application/json", StringComparison.OrdinalIgnoreCase) ? null : (StatusCodes.Status415UnsupportedMediaType, Codes.HookTypeRefused);
        }

        return hasBody && !Types.Contains(type, StringComparer.OrdinalIgnoreCase) ? (StatusCodes.Status415UnsupportedMediaType, Codes.NoticeTypeRefused) : null;
    }

    private static long MostOf(HttpRequest request) => HookDoors.IsAt(request.Path) ? HookDoors.LargestBody : LargestBody;

    private static void Guard(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = WardPage.Policy;
        headers.XContentTypeOptions = "nosniff";
        headers.CacheControl = "no-store";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers.XFrameOptions = "DENY";
    }
}
