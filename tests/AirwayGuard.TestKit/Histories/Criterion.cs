namespace AirwayGuard.TestKit.Histories;

internal enum Outcome
{
    /// <summary>Not judged.</summary>
    None,
    Pass,
    CannotTell,
    Breach,
}

/// <summary>One limit: breached above it, or at or above it; a floor is breached below it.</summary>
internal sealed record Criterion(bool Inclusive, decimal Limit, bool Floor = false)
{
    /// <summary>Compares a number that is already in the limit's unit (docs/meanings.md).</summary>
    public Outcome Judge(decimal value, string? comparator)
    {
        if (Floor)
        {
            return JudgeFloor(value, comparator);
        }

        return comparator switch
        {
            // Less than X is below X.
            "<" => value <= Limit ? Outcome.Pass : Outcome.CannotTell,
            "<=" => (Inclusive ? value < Limit : value <= Limit) ? Outcome.Pass : Outcome.CannotTell,
            // More than, or at least, a number at or over the ceiling breaches; whatever leaves it open cannot be told.
            ">" or ">=" => value >= Limit ? Outcome.Breach : Outcome.CannotTell,
            _ => (Inclusive ? value >= Limit : value > Limit) ? Outcome.Breach : Outcome.Pass,
        };
    }

    private Outcome JudgeFloor(decimal value, string? comparator) => comparator switch
    {
        "<" => value <= Limit ? Outcome.Breach : Outcome.CannotTell,
        "<=" => (Inclusive ? value <= Limit : value < Limit) ? Outcome.Breach : Outcome.CannotTell,
        ">" => value >= Limit ? Outcome.Pass : Outcome.CannotTell,
        ">=" => (Inclusive ? value > Limit : value >= Limit) ? Outcome.Pass : Outcome.CannotTell,
        _ => (Inclusive ? value <= Limit : value < Limit) ? Outcome.Breach : Outcome.Pass,
    };

    /// <summary>Several limits each by itself: one breach breaches, else one left open leaves all open.</summary>
    public static Outcome JudgeAll(IEnumerable<Criterion> criteria, Func<Criterion, Outcome> judge)
    {
        var outcomes = criteria.Select(judge).ToList();
        return outcomes.Contains(Outcome.Breach) ? Outcome.Breach
            : outcomes.Contains(Outcome.CannotTell) ? Outcome.CannotTell
            : outcomes.Count > 0 ? Outcome.Pass : Outcome.None;
    }
}
