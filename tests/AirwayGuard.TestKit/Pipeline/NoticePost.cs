using System.Net;
using AirwayGuard.TestKit.Habits;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>Carries the server's notices to the door, in the way of the server's habit.</summary>
internal sealed class NoticePost(NoticeHabit habit) : HttpMessageHandler
{
    private readonly List<(string Channel, string? Authorization, long? Length)> _held = [];

    public NotifyDoor? Door { get; set; }

    /// <summary>How many reached the door.</summary>
    public int Delivered { get; private set; }

    /// <summary>What was held back arrives, the last first.</summary>
    public void Release()
    {
        for (var i = _held.Count - 1; i >= 0; i--)
        {
            Deliver(_held[i]);
        }

        _held.Clear();
    }

    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var authorization = request.Headers.TryGetValues("Authorization", out var values) ? values.FirstOrDefault() : null;
        (string, string?, long?) notice = (request.RequestUri!.Segments[^1], authorization, habit == NoticeHabit.WithResource ? 2_000 : request.Content?.Headers.ContentLength);
        var status = 202;
        switch (habit)
        {
            case NoticeHabit.Dropped:
                break;
            case NoticeHabit.Reversed:
                _held.Add(notice);
                break;
            case NoticeHabit.Repeated:
                Deliver(notice);
                Deliver(notice);
                status = Deliver(notice);
                break;
            default:
                status = Deliver(notice);
                break;
        }

        return Task.FromResult(new HttpResponseMessage((HttpStatusCode)status) { RequestMessage = request });
    }

    private int Deliver((string Channel, string? Authorization, long? Length) notice)
    {
        Delivered++;
        return Door?.Answer(notice.Channel, notice.Authorization, notice.Length) ?? 503;
    }
}
