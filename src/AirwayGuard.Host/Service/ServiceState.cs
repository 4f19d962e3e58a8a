namespace AirwayGuard.Host.Service;

/// <summary>How far the service has come; read by the health endpoints.</summary>
internal sealed class ServiceState
{
    private volatile bool _isReady;

    /// <summary>Everything was asked for once.</summary>
    public bool IsReady
    {
        get => _isReady;
        set => _isReady = value;
    }
}
