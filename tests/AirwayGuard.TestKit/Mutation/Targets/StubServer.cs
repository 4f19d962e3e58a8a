using System.Net;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Answers each request at once with what it was given.</summary>
internal sealed class StubServer : HttpMessageHandler
{
    private static readonly int[] Statuses = [200, 200, 200, 200, 200, 201, 204, 302, 400, 401, 404, 409, 410, 412, 429, 500, 503];
    private static readonly string[] Names = ["ETag", "Location", "Content-Location", "Retry-After", "Date", "Last-Modified"];

    /// <summary>What it answers to.</summary>
    public Func<HttpRequestMessage, byte[]> BodyOf { get; set; } = _ => [];

    public Dice Dice { get; set; } = new(0);

    public int Requests { get; set; }

    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (++Requests > 40)
        {
            throw new InvalidOperationException("It asks on and on.");
        }

        var response = new HttpResponseMessage((HttpStatusCode)(Dice.Once(3) ? Dice.OneOf(Statuses) : request.Method == HttpMethod.Post ? 201 : 200))
        {
            RequestMessage = request,
            Content = new ByteArrayContent(BodyOf(request)),
        };
        foreach (var name in Names.Where(_ => Dice.Once(3)))
        {
            var value = HeaderMutator.Value(Dice);
            if (!response.Headers.TryAddWithoutValidation(name, value))
            {
                response.Content.Headers.TryAddWithoutValidation(name, value);
            }
        }

        return Task.FromResult(response);
    }
}
