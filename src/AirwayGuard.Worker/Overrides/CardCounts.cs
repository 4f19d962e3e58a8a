namespace AirwayGuard.Worker.Overrides;

/// <summary>What became of some cards, each counted once.</summary>
public readonly record struct CardCounts(int Given, int Accepted, int Overridden)
{
    /// <summary>Under so many answered cards one more moves the rate much.</summary>
    public const int Few = 10;

    public int Answered => Accepted + Overridden;

    public int NotAnswered => Given - Answered;

    /// <summary>Share of the answered that were overridden, as a fraction of one; null where none was answered.</summary>
    public double? OverrideRate => Answered == 0 ? null : (double)Overridden / Answered;

    /// <summary>Of the override rate; null where no card was answered.</summary>
    public WilsonInterval? Interval => WilsonInterval.Of(Overridden, Answered);

    public bool IsFew => Answered < Few;
}
