namespace AirwayGuard.TestKit.Simulation;

/// <summary>The network between service and server, with its faults.</summary>
internal sealed class SimulatedWire(SimulatedServer server, Turns turns, Sabotage sabotage) : HttpMessageHandler
{
    private readonly HttpMessageInvoker _server = new(server.Handler, disposeHandler: false);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var fate = await turns.Before($"{request.Method} {TypeOf(request)}", request);
        if (fate == Fate.EndBefore)
        {
            await PendingCall.Never;
        }

        if (sabotage == Sabotage.CreatesUnconditionally)
        {
            request.Headers.Remove("If-None-Exist");
        }

        var response = fate is HttpFault fault ? await fault.SendAsync(request, ServeAsync, cancellationToken) : await ServeAsync();
        if (fate == Fate.EndAfter)
        {
            await PendingCall.Never;
        }

        return await SabotagedAnswer.OfAsync(request, response, server, sabotage);

        Task<HttpResponseMessage> ServeAsync() => _server.SendAsync(request, CancellationToken.None);
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _server.Dispose();
        }

        base.Dispose(disposing);
    }

    // The type only: ids of the server are its own choice and differ from run to run.
    private static string TypeOf(HttpRequestMessage request) =>
        request.RequestUri!.AbsolutePath.Split('/', StringSplitOptions.RemoveEmptyEntries).ElementAtOrDefault(1) ?? "";
}
