namespace AirwayGuard.Fhir.Client;

/// <summary>Where the bearer token of the server comes from. Optional: without one, requests carry none.</summary>
public interface IAccessToken
{
    /// <returns>The token, or null for none.</returns>
    ValueTask<string?> GetAsync(CancellationToken stop);
}
