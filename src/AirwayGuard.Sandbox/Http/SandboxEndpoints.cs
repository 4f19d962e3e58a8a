using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace AirwayGuard.Sandbox.Http;

/// <summary>The sandbox over ASP.NET Core.</summary>
public static class SandboxEndpoints
{
    /// <summary>Answers every method below <paramref name="prefix"/>, e.g. <c>/fhir</c>. Needs <see cref="SandboxServices.AddFhirSandbox"/>.</summary>
    public static IEndpointConventionBuilder MapFhirSandbox(this IEndpointRouteBuilder endpoints, string prefix)
    {
        var root = "/" + prefix.Trim('/');
        var server = endpoints.ServiceProvider.GetRequiredService<SandboxServer>();
        return endpoints.Map(root + "/{**path}", context => Answer(context, server, root));
    }

    private static async Task Answer(HttpContext context, SandboxServer server, string root)
    {
        var request = context.Request;
        var path = (request.Path.Value ?? "")[root.Length..].TrimStart('/');
        var limit = server.BodyLimit(request.Method, path);
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            // The sandbox's own limit counts, and its refusal has an OperationOutcome.
            size.MaxRequestBodySize = null;
        }

        var body = await ReadBody(request, limit, context.RequestAborted);
        var response = body is null ? server.AnswerTooLarge() : server.Answer(new SandboxRequest
        {
            Method = request.Method.ToUpperInvariant(),
            BaseAddress = $"{request.Scheme}://{request.Host.Value}{request.PathBase.Value}{root}",
            Path = path,
            Query = request.QueryString.Value ?? "",
            Headers = request.Headers.ToDictionary(header => header.Key, header => header.Value.ToString(), StringComparer.OrdinalIgnoreCase),
            Body = body,
        });
        await Write(context, response);
    }

    // Null when there is more than the limit.
    private static async Task<byte[]?> ReadBody(HttpRequest request, int limit, CancellationToken cancellation)
    {
        if (request.ContentLength > limit)
        {
            return null;
        }

        using var copy = new MemoryStream();
        var buffer = new byte[64 * 1024];
        int read;
        while ((read = await request.Body.ReadAsync(buffer, cancellation)) > 0)
        {
            if (copy.Length + read > limit)
            {
                return null;
            }

            await copy.WriteAsync(buffer.AsMemory(0, read), cancellation);
        }

        return copy.ToArray();
    }

    private static async Task Write(HttpContext context, SandboxResponse response)
    {
        context.Response.StatusCode = response.Status;
        foreach (var (name, value) in response.Headers)
        {
            context.Response.Headers[name] = value;
        }

        if (!response.Body.IsEmpty)
        {
            context.Response.ContentLength = response.Body.Length;
            await context.Response.Body.WriteAsync(response.Body, context.RequestAborted);
        }
    }
}
