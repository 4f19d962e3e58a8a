namespace AirwayGuard.TestKit.Habits;

/// <summary>What a server does with a search parameter that it does not know.</summary>
public enum UnknownWay : byte
{
    Ignore, Tell, Refuse,
}
