using Microsoft.AspNetCore.Http;

namespace AirwayGuard.TestKit.Kills;

/// <summary>Counts what the service asks of the server, so that its end can be put at a certain request.</summary>
internal sealed class ServerTraffic
{
    /// <summary>User agent of the one who charts, whose requests do not count.</summary>
    public const string Poster = "poster";

    private readonly Lock _gate = new();
    private Func<string, string, bool>? _isAwaited;
    private TaskCompletionSource<string>? _came;
    private int _toCome;

    /// <summary>Done when so many more requests of this kind have come; they are still unanswered then.</summary>
    /// <param name="isMeant">Of method and type.</param>
    /// <returns>Method and type of the last.</returns>
    public Task<string> ComesAsync(int requests, Func<string, string, bool> isMeant)
    {
        lock (_gate)
        {
            (_toCome, _isAwaited, _came) = (requests, isMeant, new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously));
            return _came.Task;
        }
    }

    public void Note(HttpRequest request)
    {
        lock (_gate)
        {
            var type = request.Path.Value?.Split('/').ElementAtOrDefault(2) ?? "";
            if (_came is not null && request.Headers.UserAgent != Poster && _isAwaited!(request.Method, type) && --_toCome == 0)
            {
                _came.TrySetResult($"{request.Method} of {type}");
            }
        }
    }
}
