using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Service;

/// <summary>
/// Tells when the service is ready: everything was asked for once since the start, and what was kept until then is judged. What comes
/// meanwhile is not waited for, nor a file whose judging failed: that is tried for a quarter of an hour, and told by itself.
/// </summary>
internal sealed class Readiness(ILedger ledger, ServiceState state)
{
    private Position _kept;

    /// <param name="isAsked">Everything was asked for once.</param>
    /// <returns>Whether it is ready now.</returns>
    public async ValueTask<bool> LookAsync(bool isAsked, CancellationToken stop)
    {
        if (!isAsked)
        {
            return false;
        }

        var now = await ledger.StateAsync(stop);
        if (!state.IsAsked)
        {
            _kept = now.Newest;
            state.IsAsked = true;
        }

        return state.IsReady = state.IsReady || now.OldestUntried is not { } oldest || oldest > _kept;
    }
}
