namespace AirwayGuard.TestKit.Habits;

/// <summary>What becomes of a notice between the server and us.</summary>
public enum NoticeHabit : byte
{
    Plain, WithResource, Reversed, Repeated, Emptied, Dropped,
}
