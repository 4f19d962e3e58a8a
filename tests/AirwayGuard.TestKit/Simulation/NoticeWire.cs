using System.Net;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Hands the server's notices to whoever decides what becomes of them.</summary>
/// <param name="answer">Status to answer with; null where nobody answers.</param>
internal sealed class NoticeWire(Func<Notice, int?> answer) : HttpMessageHandler
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var authorization = request.Headers.TryGetValues("Authorization", out var values) ? values.FirstOrDefault() : null;
        var status = answer(new Notice(request.RequestUri!.Segments[^1], authorization));
        return status is { } code
            ? Task.FromResult(new HttpResponseMessage((HttpStatusCode)code) { RequestMessage = request })
            : Task.FromException<HttpResponseMessage>(new HttpRequestException("Nobody listens."));
    }
}
