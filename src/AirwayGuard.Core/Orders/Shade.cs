namespace AirwayGuard.Core.Orders;

/// <summary>What sets a word apart from the others of its term, as the lexicon's value of it.</summary>
internal static class Shade
{
    // Of Plain. What holds from now on has a value above zero.
    public const decimal Now = 1m, New = 2m, Off = -1m, Reason = -2m, HalfOfDay = -4m, Written = -5m, Rise = -6m;

    // Of Not: no, nor.
    public const decimal No = 1m, Nor = 2m;

    // Of If.
    public const decimal EachTime = 1m, OnlyIf = 2m;

    // Of Change: from a value before, to a lower one, to a higher one, of the vacuum itself to a higher one, little by little.
    public const decimal FromBefore = 1m, Less = -1m, Higher = 2m, VacuumUp = 3m, ByAndBy = -2m;

    /// <summary>Of AtMost: the most there is, where no number says how much.</summary>
    public const decimal Extreme = 1m;

    /// <summary>Of FullLine: where it is said of the vacuum or its regulator only.</summary>
    public const decimal IfOfVacuum = 1m;

    /// <summary>Of And: a plus. Of Hold: an end and no pause. Of Then: a correction. Of Needed: a condition. Of History: another order takes its place.</summary>
    public const decimal Sharper = 1m;
}
