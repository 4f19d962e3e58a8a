namespace AirwayGuard.Fhir.Client;

/// <summary>Reads the whole body inside the attempt, so that its time-out and retries cover the body too, and bounds its size.</summary>
internal sealed class BufferingHandler(long maxBytes) : DelegatingHandler
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var response = await base.SendAsync(request, cancellationToken);
        try
        {
            await response.Content.LoadIntoBufferAsync(maxBytes, cancellationToken);
            return response;
        }
        catch
        {
            response.Dispose();
            throw;
        }
    }
}
