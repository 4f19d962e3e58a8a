namespace AirwayGuard.TestKit.Pipeline;

/// <summary>The way to the server, on which a test can lose, delay or replace an answer.</summary>
public sealed class FaultyWire(HttpMessageHandler inner) : DelegatingHandler(inner)
{
    /// <summary>Given the request and the way on; null lets everything pass.</summary>
    public Func<HttpRequestMessage, Func<Task<HttpResponseMessage>>, Task<HttpResponseMessage>>? Fault { get; set; }

    /// <summary>Method and path of what was written, in order.</summary>
    public List<string> Written { get; } = [];

    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (request.Method != HttpMethod.Get)
        {
            Written.Add($"{request.Method} {request.RequestUri!.AbsolutePath["/fhir/".Length..].Split('/')[0]}");
        }

        return Fault is null ? base.SendAsync(request, cancellationToken) : Fault(request, () => base.SendAsync(request, cancellationToken));
    }
}
