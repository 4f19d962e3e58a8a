using System.Net;

namespace AirwayGuard.Host.DemoWard;

/// <summary>How loading the ward went.</summary>
/// <param name="Sent">Resources that the server took in this run.</param>
/// <param name="Status">The server's answer to what it refused; null where it refused nothing or did not answer.</param>
internal sealed record WardLoading(WardOutcome Outcome, int Sent, HttpStatusCode? Status = null);

/// <summary>What became of the ward.</summary>
internal enum WardOutcome
{
    /// <summary>Everything was sent and taken.</summary>
    Loaded,

    /// <summary>The marker is there: nothing was sent.</summary>
    AlreadyThere,

    /// <summary>The server refused; what it took before stays, and a second run sends all again.</summary>
    Refused,

    /// <summary>The server did not answer.</summary>
    NoAnswer,
}
