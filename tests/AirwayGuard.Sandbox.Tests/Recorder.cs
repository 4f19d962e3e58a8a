using System.Net;

namespace AirwayGuard.Sandbox.Tests;

/// <summary>Stands for the endpoints of Subscriptions: keeps what comes and answers as told.</summary>
internal sealed class Recorder : HttpMessageHandler
{
    public List<Received> Requests { get; } = [];

    /// <summary>The status of the answer; null when nobody listens.</summary>
    public Func<Received, HttpStatusCode?> Reply { get; set; } = _ => HttpStatusCode.OK;

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var received = new Received(request.Method.Method, request.RequestUri!.AbsoluteUri, await request.Content!.ReadAsStringAsync(cancellationToken),
            request.Headers.Authorization?.ToString(), request.Content.Headers.ContentType?.MediaType);
        Requests.Add(received);
        return Reply(received) is { } status ? new HttpResponseMessage(status) : throw new HttpRequestException("Nobody listens.");
    }
}

internal sealed record Received(string Method, string Address, string Body, string? Authorization, string? ContentType);
