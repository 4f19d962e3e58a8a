namespace AirwayGuard.Worker.Judging;

/// <summary>The basis by which is judged now. A new rule set or sign-off takes the place of the one before while the service runs.</summary>
public sealed class BasisInForce(ServiceBasis first)
{
    private volatile ServiceBasis _current = first;

    public ServiceBasis Current => _current;

    /// <summary>Whoever judges takes it up with the next patient.</summary>
    public void Take(ServiceBasis next) => _current = next;
}
