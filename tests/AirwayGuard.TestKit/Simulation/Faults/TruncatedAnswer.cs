namespace AirwayGuard.TestKit.Simulation;

/// <summary>The server does what is asked; of its JSON only the first part arrives, and nothing says so.</summary>
/// <param name="percent">How much of it, 1 to 99.</param>
internal sealed class TruncatedAnswer(int percent = 50) : HttpFault("the JSON of the answer is truncated")
{
    public override HttpFault Draw(Schedule schedule) => new TruncatedAnswer(1 + schedule.Next(99));

    public override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver)
    {
        var answer = await server();
        var body = await answer.Content.ReadAsByteArrayAsync(timeIsOver);
        if (body.Length > 1)
        {
            var type = answer.Content.Headers.ContentType;
            answer.Content = new ReadOnlyMemoryContent(body.AsMemory(0, Math.Max(1, body.Length * percent / 100)));
            answer.Content.Headers.ContentType = type;
        }

        return answer;
    }
}
