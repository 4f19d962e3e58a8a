namespace AirwayGuard.Core.Ports;

/// <summary>Takes one outgoing message where it belongs. Idempotent: the same message twice leaves one resource.</summary>
public interface ISink
{
    string Kind { get; }

    ValueTask<Receipt> SendAsync(Outgoing outgoing, Work claim, CancellationToken stop);
}
