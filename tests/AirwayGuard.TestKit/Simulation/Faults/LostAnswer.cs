namespace AirwayGuard.TestKit.Simulation;

/// <summary>The server does what is asked, and no answer comes.</summary>
internal sealed class LostAnswer() : HttpFault("the answer is lost")
{
    public override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver)
    {
        (await server()).Dispose();
        return await NoAnswerAsync(timeIsOver);
    }
}
