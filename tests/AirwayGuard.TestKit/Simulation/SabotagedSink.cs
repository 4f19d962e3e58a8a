using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A sink that never hears that its claim runs out.</summary>
internal sealed class SabotagedSink(ISink sink) : ISink
{
    public bool Takes(string kind) => sink.Takes(kind);

    public ValueTask<SinkAnswer> SendAsync(Outgoing outgoing, ServerVersion? last, DateTimeOffset until, CancellationToken stop) =>
        sink.SendAsync(outgoing, last, DateTimeOffset.MaxValue, stop);
}
