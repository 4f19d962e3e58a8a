using System.Net;
using System.Net.Http.Headers;
using System.Text;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>Plays the server of a key set and notes which addresses were asked for.</summary>
internal sealed class KeyServer : HttpMessageHandler
{
    private readonly Lock _lock = new();
    private readonly List<string> _asked = [];
    private readonly TaskCompletionSource _firstAsked = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Body of the answer; null fails the connection.</summary>
    public string? Set { get; set; }

    public HttpStatusCode Status { get; set; } = HttpStatusCode.OK;

    public Uri? Location { get; set; }

    public TimeSpan? MaxAge { get; set; }

    /// <summary>Holds every answer back until it has ended.</summary>
    public Task? Gate { get; set; }

    /// <summary>Ends when the first question has come, or fails after 30 s.</summary>
    public Task FirstAskedAsync() => _firstAsked.Task.WaitAsync(TimeSpan.FromSeconds(30));

    public IReadOnlyList<string> Asked
    {
        get
        {
            lock (_lock)
            {
                return [.. _asked];
            }
        }
    }

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        lock (_lock)
        {
            _asked.Add(request.RequestUri!.OriginalString);
        }

        _firstAsked.TrySetResult();
        if (Gate is { } gate)
        {
            await gate.WaitAsync(cancellationToken);
        }

        if (Set is not { } set)
        {
            throw new HttpRequestException("The server is away.");
        }

        var answer = new HttpResponseMessage(Status) { Content = new ByteArrayContent(Encoding.UTF8.GetBytes(set)) };
        answer.Headers.Location = Location;
        answer.Headers.CacheControl = MaxAge is { } age ? new CacheControlHeaderValue { MaxAge = age } : null;
        // A server that does not state its length must be stopped by what is read.
        answer.Content.Headers.ContentLength = null;
        return answer;
    }
}
