using System.Net;

namespace AirwayGuard.Fhir.Tests.Client;

/// <summary>Answers in turn what it was told, and keeps what it was sent.</summary>
internal sealed class ScriptedHandler : HttpMessageHandler
{
    private readonly Queue<Func<HttpResponseMessage>> _says = new();

    public int Count { get; private set; }

    public List<string> Bodies { get; } = [];

    public List<string> Tokens { get; } = [];

    public HttpStatusCode Otherwise { get; set; } = HttpStatusCode.NotFound;

    public string Body { get; set; } = "";

    public bool NeverAnswers { get; set; }

    public void Say(params HttpStatusCode[] statuses)
    {
        foreach (var status in statuses)
        {
            Say(() => new HttpResponseMessage(status));
        }
    }

    public void Say(Func<HttpResponseMessage> answer) => _says.Enqueue(answer);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        Count++;
        Bodies.Add(request.Content is null ? "" : await request.Content.ReadAsStringAsync(cancellationToken));
        Tokens.Add(request.Headers.Authorization?.ToString() ?? "");
        if (NeverAnswers)
        {
            await Task.Delay(Timeout.Infinite, cancellationToken);
        }

        return _says.TryDequeue(out var say) ? say() : new HttpResponseMessage(Otherwise) { Content = new StringContent(Body) };
    }
}
