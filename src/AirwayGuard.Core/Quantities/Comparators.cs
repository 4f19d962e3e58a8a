namespace AirwayGuard.Core.Quantities;

/// <summary>What comparators become when the value they stand beside is turned around.</summary>
public static class Comparators
{
    /// <summary>Of the value with its sign turned: what bounds it from above then bounds it from below.</summary>
    public static Comparator Mirrored(Comparator comparator) => comparator switch
    {
        Comparator.Below => Comparator.Above,
        Comparator.AtMost => Comparator.AtLeast,
        Comparator.AtLeast => Comparator.AtMost,
        Comparator.Above => Comparator.Below,
        _ => Comparator.Exactly,
    };
}
