using System.Net;
using System.Net.Http.Headers;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Something in between answers 200 with a page to sign in on; the request never reaches the server.</summary>
internal sealed class LoginPage() : HttpFault("a login page with 200")
{
    private const string Page = "<!DOCTYPE html><html><head><title>Sign in</title></head><body><form><input name=\"user\"></form></body></html>";

    public override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver)
    {
        var content = new StringContent(Page);
        content.Headers.ContentType = new MediaTypeHeaderValue("text/html");
        return Task.FromResult(new HttpResponseMessage(HttpStatusCode.OK) { RequestMessage = request, Content = content });
    }
}
