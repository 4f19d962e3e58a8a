namespace AirwayGuard.Host.Service;

/// <summary>How far the service has come; read by the health endpoints.</summary>
internal sealed class ServiceState
{
    private volatile bool _isAsked;
    private volatile bool _isReady;
    private volatile bool _hasFailed;

    /// <summary>Everything was asked for once.</summary>
    public bool IsAsked
    {
        get => _isAsked;
        set => _isAsked = value;
    }

    /// <summary>Everything was asked for once, and what was there is judged.</summary>
    public bool IsReady
    {
        get => _isReady;
        set => _isReady = value;
    }

    /// <summary>It stops because it could not begin.</summary>
    public bool HasFailed
    {
        get => _hasFailed;
        set => _hasFailed = value;
    }
}
