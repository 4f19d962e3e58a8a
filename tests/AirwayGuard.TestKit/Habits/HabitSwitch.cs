using AirwayGuard.TestKit.Pipeline;

namespace AirwayGuard.TestKit.Habits;

/// <summary>One switch, or the several of a profile: how a server behaves, and what a site configures for it.</summary>
/// <param name="Make">Its habits, outermost first, given the server's clock.</param>
public sealed record HabitSwitch(string Name, Func<TimeProvider, IEnumerable<DelegatingHandler>> Make)
{
    /// <summary>What has to be set for such a server, and what makes the habit show; nothing where the defaults will do.</summary>
    public Action<BenchSettings> Configure { get; init; } = static _ => { };

    public NoticeHabit Notices { get; init; }

    /// <summary>How often all is asked and sent between two events; more where a server turns requests away.</summary>
    public int RoundsAStage { get; init; } = 1;

    public BenchSettings Settings()
    {
        var settings = new BenchSettings { IsWhole = true, Notices = Notices, Habits = Make };
        Configure(settings);
        return settings;
    }

    public override string ToString() => Name;
}
