using System.Globalization;
using System.Net;
using System.Net.Http.Headers;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The network between service and server, with its faults.</summary>
internal sealed class SimulatedWire(HttpMessageHandler server, Turns turns, Sabotage sabotage) : HttpMessageHandler
{
    private readonly HttpMessageInvoker _server = new(server, disposeHandler: false);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var fate = await turns.Before($"{request.Method} {TypeOf(request)}", isHttp: true);
        switch (fate)
        {
            case Fate.EndBefore:
                await PendingCall.Never;
                break;
            case Fate.LostBefore:
                return await NoAnswerAsync(cancellationToken);
            case Fate.ServerError:
                return Answer(request, HttpStatusCode.InternalServerError);
            case Fate.TooMany:
                var busy = Answer(request, HttpStatusCode.TooManyRequests);
                busy.Headers.RetryAfter = new RetryConditionHeaderValue(TimeSpan.FromSeconds(3));
                return busy;
            default:
                break;
        }

        if (sabotage == Sabotage.CreatesUnconditionally)
        {
            request.Headers.Remove("If-None-Exist");
        }

        var response = await _server.SendAsync(request, cancellationToken);
        switch (fate)
        {
            case Fate.EndAfter:
                await PendingCall.Never;
                break;
            case Fate.LostAfter:
                response.Dispose();
                return await NoAnswerAsync(cancellationToken);
            case Fate.ServerErrorAfter:
                response.Dispose();
                return Answer(request, HttpStatusCode.InternalServerError);
            default:
                break;
        }

        return response;
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _server.Dispose();
        }

        base.Dispose(disposing);
    }

    // Whoever waits goes on inline when the attempt's time is over, on the schedule's thread.
    private static async Task<HttpResponseMessage> NoAnswerAsync(CancellationToken timeIsOver)
    {
        var answer = new PendingCall("answer", isHttp: true);
        _ = timeIsOver.UnsafeRegister(_ => answer.Decided(Fate.LostBefore), null);
        await answer;
        throw new OperationCanceledException(timeIsOver);
    }

    // The type only: ids of the server are its own choice and differ from run to run.
    private static string TypeOf(HttpRequestMessage request) =>
        request.RequestUri!.AbsolutePath.Split('/', StringSplitOptions.RemoveEmptyEntries).ElementAtOrDefault(1) ?? "";

    private static HttpResponseMessage Answer(HttpRequestMessage request, HttpStatusCode status) => new(status)
    {
        RequestMessage = request,
        Content = new StringContent(string.Create(CultureInfo.InvariantCulture, $"{(int)status}")),
    };
}
