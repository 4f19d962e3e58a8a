using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>Settles what several mentions of one size allow together: up to the highest that is meant, or nothing where they contradict each other.</summary>
internal static class SizeResolver
{
    // The same vacuum in another unit is rounded by whoever writes it.
    private const decimal Rounding = 0.03m;

    /// <summary>The mention that says how much is allowed; null where none does, or nobody can tell.</summary>
    /// <param name="contradicts">They cannot all hold.</param>
    public static Mention? Settle(List<Mention> mentions, out bool contradicts)
    {
        contradicts = false;
        if (mentions.Count == 0)
        {
            return null;
        }

        if (mentions.RemoveAll(mention => mention.IsOpen) > 0 && !mentions.Exists(mention => mention.Bound is Bound.AtMost or Bound.Below))
        {
            // No cap stands beside what may be raised.
            contradicts = true;
            return null;
        }

        var highest = mentions[0];
        foreach (var mention in mentions)
        {
            highest = Size(mention) > Size(highest) && !IsRestated(mention, highest) ? mention : highest;
        }

        foreach (var mention in mentions)
        {
            if (Size(mention) == Size(highest) || IsRestated(mention, highest))
            {
                continue;
            }

            // A target below a cap; or more, or less, where there is a reason. A cap below a target is a contradiction.
            var isMeant = highest.IsConditional || mention.IsAlternative || (highest.Bound is Bound.AtMost or Bound.Below && mention.Bound == Bound.Plain);
            contradicts |= !isMeant;
        }

        return contradicts ? null : highest;
    }

    private static bool IsRestated(Mention one, Mention other) =>
        one.Unit != other.Unit && Units.IsPressure(one.Unit) && Units.IsPressure(other.Unit) && Math.Abs(Size(one) - Size(other)) <= Rounding * Size(other);

    private static decimal Size(Mention mention) =>
        Units.IsPressure(mention.Unit) ? Vacuum.Convert(mention.High!.Value, mention.Unit, Unit.MmHg) : mention.High!.Value;
}
