using System.Globalization;
using System.Net;
using System.Net.Http.Headers;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A status that tells of trouble, with what is drawn for its body.</summary>
/// <param name="status">401, 409, 412, 429 or 500.</param>
/// <param name="isDone">The server did what was asked all the same.</param>
/// <param name="retryAfter">Seconds asked to wait; null where the server does not say.</param>
internal sealed class StatusFault(int status, bool isDone = false, int? retryAfter = null, ErrorBody? body = null)
    : HttpFault(string.Create(CultureInfo.InvariantCulture, $"{status}{(retryAfter is null ? "" : $" for {retryAfter} s")}{(isDone ? " though it is done" : "")}{(body is null ? "" : $" with {body.Name}")}"))
{
    // Without a condition there is nothing that 409 or 412 could speak of.
    public override bool Suits(HttpRequestMessage request) =>
        status is not (409 or 412) || request.Headers.Contains("If-Match") || request.Headers.Contains("If-None-Exist");

    public override HttpFault Draw(Schedule schedule) =>
        new StatusFault(status, isDone, retryAfter is null ? null : schedule.OneOf([0, 3, 90, 2_000]), schedule.OneOf(ErrorBody.All));

    public override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver)
    {
        if (isDone)
        {
            (await server()).Dispose();
        }

        var answer = new HttpResponseMessage((HttpStatusCode)status) { RequestMessage = request, Content = (body ?? ErrorBody.All[0]).ToContent() };
        if (retryAfter is { } seconds)
        {
            answer.Headers.RetryAfter = new RetryConditionHeaderValue(TimeSpan.FromSeconds(seconds));
        }

        return answer;
    }
}
