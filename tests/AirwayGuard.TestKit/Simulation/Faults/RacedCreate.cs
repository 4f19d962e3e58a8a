namespace AirwayGuard.TestKit.Simulation;

/// <summary>
/// Another writer creates the same identifier in the moment between the server's look and its write: the condition of neither holds
/// the other up, and there are two.
/// </summary>
/// <param name="isOverFirst">Both were there before our request was looked at, which is then refused with 412.</param>
internal sealed class RacedCreate(bool isOverFirst = false) : HttpFault(isOverFirst ? "two others have created the same" : "another creates the same at once")
{
    public override bool Suits(HttpRequestMessage request) => request.Method == HttpMethod.Post && request.Headers.Contains("If-None-Exist");

    public override HttpFault Draw(Schedule schedule) => new RacedCreate(schedule.Next(2) == 0);

    public override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver)
    {
        var condition = request.Headers.TryGetValues("If-None-Exist", out var values) ? values.ToArray() : [];
        request.Headers.Remove("If-None-Exist");
        (await server()).Dispose();
        var answer = await server();
        request.Headers.Add("If-None-Exist", condition);
        if (!isOverFirst)
        {
            return answer;
        }

        answer.Dispose();
        return await server();
    }
}
