using System.Net.Http.Headers;

namespace AirwayGuard.Fhir.Client;

/// <summary>The last hand before the wire: stops what is not on the configured server, and only then adds the access token.</summary>
internal sealed class GateHandler(FhirGate gate, IAccessToken? token) : DelegatingHandler
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (!gate.IsOnServer(request.RequestUri))
        {
            throw new AddressRefusedException();
        }

        if (token is not null && await token.GetAsync(cancellationToken) is { Length: > 0 } value)
        {
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", value);
        }

        return await base.SendAsync(request, cancellationToken);
    }
}
