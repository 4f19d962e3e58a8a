namespace AirwayGuard.TestKit.Simulation;

/// <summary>The request never reaches the server, and no answer comes.</summary>
internal sealed class LostRequest() : HttpFault("the request is lost")
{
    public override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver) =>
        NoAnswerAsync(timeIsOver);
}
