namespace AirwayGuard.Rules.Comparing;

/// <summary>Which way a change goes: under the stricter of two rules more is found, or what is found is told sooner, more gravely or at all.</summary>
public enum Direction
{
    /// <summary>Another wording, source or measure, or fewer of some and more of others.</summary>
    Neither,
    Stricter,
    Looser,
}
