using System.Net;

namespace AirwayGuard.Sandbox.Http;

/// <summary>Answers an HttpClient straight from the server, without sockets, threads or waiting.</summary>
public sealed class SandboxHandler : HttpMessageHandler
{
    private readonly SandboxServer server;
    private readonly string prefix;

    /// <summary>A handler for addresses below <paramref name="prefix"/>, e.g. <c>/fhir</c>; an empty one stands for the root.</summary>
    public SandboxHandler(SandboxServer server, string prefix = "/fhir")
    {
        this.server = server;
        this.prefix = prefix.TrimEnd('/');
    }

    /// <inheritdoc/>
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        var body = request.Content is null ? [] : await request.Content.ReadAsByteArrayAsync(cancellationToken);
        return Answer(request, body);
    }

    /// <inheritdoc/>
    protected override HttpResponseMessage Send(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        using var copy = new MemoryStream();
        request.Content?.ReadAsStream(cancellationToken).CopyTo(copy);
        return Answer(request, copy.ToArray());
    }

    private HttpResponseMessage Answer(HttpRequestMessage request, byte[] body)
    {
        var address = request.RequestUri!;
        var path = address.AbsolutePath;
        var inside = path.StartsWith(prefix, StringComparison.Ordinal) && (path.Length == prefix.Length || path[prefix.Length] == '/');
        var headers = request.Headers.Concat(request.Content?.Headers.AsEnumerable() ?? [])
            .ToDictionary(header => header.Key, header => string.Join(", ", header.Value), StringComparer.OrdinalIgnoreCase);
        var authority = request.Headers.Host ?? address.Authority;
        var response = server.Answer(new SandboxRequest
        {
            Method = request.Method.Method,
            BaseAddress = $"{address.Scheme}://{authority}{prefix}",
            // An address outside the prefix is an unknown type, as it would be over sockets.
            Path = inside ? Uri.UnescapeDataString(path[prefix.Length..].TrimStart('/')) : "-",
            Query = address.Query,
            Headers = headers,
            Body = body,
        });
        return Message(request, response);
    }

    private static HttpResponseMessage Message(HttpRequestMessage request, SandboxResponse response)
    {
        var message = new HttpResponseMessage((HttpStatusCode)response.Status)
        {
            RequestMessage = request,
            Content = new ReadOnlyMemoryContent(response.Body),
        };
        foreach (var (name, value) in response.Headers)
        {
            if (!message.Headers.TryAddWithoutValidation(name, value))
            {
                message.Content.Headers.TryAddWithoutValidation(name, value);
            }
        }

        return message;
    }
}
