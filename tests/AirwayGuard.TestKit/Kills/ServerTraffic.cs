using Microsoft.AspNetCore.Http;

namespace AirwayGuard.TestKit.Kills;

/// <summary>Counts what the service asks of the server, so that its end can be put at a certain request.</summary>
internal sealed class ServerTraffic
{
    /// <summary>User agent of the one who charts, whose requests do not count.</summary>
    public const string Poster = "poster";

    private readonly Lock _gate = new();
    private Func<string, string, bool>? _isAwaited;
    private Action<string>? _come;
    private int _toCome;

    /// <summary>Waits for so many more requests; they are still unanswered then.</summary>
    /// <param name="isMeant">Whether one counts, of method and type.</param>
    /// <param name="come">Told method and type of the last, once.</param>
    public void Await(int requests, Func<string, string, bool> isMeant, Action<string> come)
    {
        lock (_gate)
        {
            (_toCome, _isAwaited, _come) = (requests, isMeant, come);
        }
    }

    public void Note(HttpRequest request)
    {
        lock (_gate)
        {
            var type = request.Path.Value?.Split('/').ElementAtOrDefault(2) ?? "";
            if (_come is not null && request.Headers.UserAgent != Poster && _isAwaited!(request.Method, type) && --_toCome == 0)
            {
                _come($"{request.Method} of {type}");
                _come = null;
            }
        }
    }
}
