namespace AirwayGuard.TestKit.Habits;

/// <summary>One way in which a FHIR server behaves otherwise than the sandbox, put in front of it. Habits are chained.</summary>
public abstract class Habit : DelegatingHandler
{
    private const string Root = "/fhir";

    /// <summary>What follows the base address, in parts: type, id, <c>_history</c>, version.</summary>
    protected static string[] PathOf(HttpRequestMessage request) => request.RequestUri!.AbsolutePath[Root.Length..].Trim('/').Split('/');

    /// <summary>The base address, without a final slash.</summary>
    protected static string BaseOf(HttpRequestMessage request) => request.RequestUri!.GetLeftPart(UriPartial.Authority) + Root;

    /// <summary>Asks for a type's resources by conditions.</summary>
    protected static bool IsSearch(HttpRequestMessage request) => request.Method == HttpMethod.Get && PathOf(request) is [var type] && type is not ("metadata" or "_history" or "_snapshot" or "");

    /// <summary>The sandbox's answer to the request, perhaps at another address.</summary>
    protected Task<HttpResponseMessage> PassAsync(HttpRequestMessage request, CancellationToken stop) => base.SendAsync(request, stop);

    /// <summary>The sandbox's answer to another GET.</summary>
    protected async Task<HttpResponseMessage> GetAsync(Uri address, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        return await PassAsync(request, stop);
    }
}
