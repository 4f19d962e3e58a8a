namespace AirwayGuard.TestKit.Simulation;

/// <summary>The server's notices on their way to the service, and what becomes of each.</summary>
/// <param name="door">Gives a notice to the process that is up, with the length of its body; null where nobody listens.</param>
internal sealed class Notices(Schedule schedule, VirtualTime clock, Func<Notice, long?, int?> door)
{
    private readonly List<Notice> _heldBack = [];
    private readonly List<(Notice Notice, DateTimeOffset At)> _delayed = [];

    /// <summary>What the server is answered; null for nothing.</summary>
    public int? Answer(Notice notice)
    {
        var fate = schedule.FateOfNotice();
        schedule.Say(clock.Now, $"notice on {notice.Channel}: {fate}");
        switch (fate)
        {
            case NoticeFate.Dropped:
                return 202;
            case NoticeFate.HeldBack:
                _heldBack.Add(notice);
                return 202;
            case NoticeFate.Delayed:
                _delayed.Add((notice, clock.Now + TimeSpan.FromSeconds(schedule.OneOf([1, 30, 90, 600]))));
                return 202;
            case NoticeFate.Refused:
                return 500;
            case NoticeFate.Doubled:
                door(notice, 0);
                break;
            default:
                break;
        }

        return door(notice, fate == NoticeFate.Empty ? null : 2);
    }

    /// <summary>The newest first: what was held back comes out of its order.</summary>
    public void ReleaseOne()
    {
        if (_heldBack.Count > 0)
        {
            Arrive(_heldBack[^1], "held-back");
            _heldBack.RemoveAt(_heldBack.Count - 1);
        }
    }

    /// <summary>What was delayed and whose time has come.</summary>
    public void ReleaseDue()
    {
        for (var i = 0; i < _delayed.Count;)
        {
            if (_delayed[i].At <= clock.Now)
            {
                Arrive(_delayed[i].Notice, "delayed");
                _delayed.RemoveAt(i);
            }
            else
            {
                i++;
            }
        }
    }

    private void Arrive(Notice notice, string how)
    {
        schedule.Say(clock.Now, $"{how} notice on {notice.Channel} arrives");
        door(notice, 2);
    }
}
