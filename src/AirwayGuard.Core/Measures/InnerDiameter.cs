using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// The inner diameter in use: the inner cannula's while one is in place, else the tube's. A charted diameter of a cannula, or an
/// inner-cannula Device in use, is in place unless charted otherwise; false, 0 or the end of its use ends it. A tube keeps its bore while it
/// is in place, so that the first that is charted of it is that of the time before too.
/// </summary>
internal static class InnerDiameter
{
    /// <param name="onFileThen">Only what was charted by then counts.</param>
    /// <returns>Millimetres; 0 with what is missing set in the result.</returns>
    public static decimal At(in Timeline timeline, Care care, int airway, long at, ref Measured result, bool onFileThen = false)
    {
        if (airway < 0)
        {
            result.Missing = Missing.TubeInnerDiameter;
            return 0m;
        }

        var span = care.Airways[airway];
        var cannula = InnerCannula.At(timeline, care, span, at, out var isInPlace);
        if (isInPlace && cannula < 0)
        {
            result.Missing = Missing.InnerCannulaDiameter;
            return 0m;
        }

        if (!isInPlace && IsUnread(timeline, span, at))
        {
            result.Missing = Missing.TubeInnerDiameter;
            return 0m;
        }

        var fact = isInPlace ? cannula : span.DiameterFact;
        var holds = fact >= 0 && (!IsChartedAfter(timeline.Facts[fact], at)
            || (!onFileThen && span.DiameterIsOfAll && !IsAnyUnread(timeline, span, timeline.Facts[fact].EffectiveFrom)));
        if (!holds || !Diameters.TryMillimetres(timeline.Facts[fact].Value, out var millimetres) || millimetres <= 0m)
        {
            result.Missing = Missing.TubeInnerDiameter;
            return 0m;
        }

        if (timeline.Facts[fact].Value.Comparator != Comparator.Exactly)
        {
            result.Missing = Missing.ExactValue;
            return 0m;
        }

        if (isInPlace && IsWiderThanTube(timeline, span, millimetres))
        {
            result.Missing = Missing.InnerCannulaDiameter;
            return 0m;
        }

        result.Uses(fact);
        return millimetres;
    }

    // One that lies in a tube is no wider than it: which of the two sizes is wrong nobody knows.
    private static bool IsWiderThanTube(in Timeline timeline, in AirwaySpan airway, decimal cannula) =>
        airway.DiameterFact >= 0 && Diameters.TryMillimetres(timeline.Facts[airway.DiameterFact].Value, out var tube) && tube > 0m && cannula > tube;

    /// <summary>Whether a row about a tube's diameter can be read as none; then the diameter is unknown from it on.</summary>
    public static bool IsUnread(in Fact diameter) => !diameter.Has(FactMarks.Timeless) && !TwoDiameters.Tells(diameter, out _);

    private static bool IsChartedAfter(in Fact diameter, long at) => !diameter.Has(FactMarks.Timeless) && diameter.EffectiveFrom > at;

    // One that could not be read stands before it: whether it was the same, nobody knows.
    private static bool IsAnyUnread(in Timeline timeline, in AirwaySpan airway, long before)
    {
        var facts = timeline.Of(Concepts.TubeInnerDiameter);
        for (var i = Timeline.FirstAfter(facts, before - 1) - 1; i >= 0 && facts[i].EffectiveFrom >= airway.From; i--)
        {
            if (IsOf(timeline, airway, facts[i]) && (IsUnread(facts[i]) || TwoDiameters.Contradict(timeline, i, airway.Device)))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsOf(in Timeline timeline, in AirwaySpan airway, in Fact diameter) =>
        diameter.About == timeline.Patient || (!airway.Device.IsNone && diameter.About == airway.Device);

    /// <summary>
    /// Whether what was charted last cannot be read, or is two sizes, so that what was charted before holds no longer. Of one instant, what
    /// can be read counts.
    /// </summary>
    public static bool IsUnread(in Timeline timeline, in AirwaySpan airway, long at)
    {
        var facts = timeline.Of(Concepts.TubeInnerDiameter);
        var unread = -1L;
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0 && facts[i].EffectiveFrom >= airway.From; i--)
        {
            ref readonly var fact = ref facts[i];
            if (fact.Has(FactMarks.Timeless) || !IsOf(timeline, airway, fact))
            {
                continue;
            }

            if (!IsUnread(fact))
            {
                return unread > fact.EffectiveFrom || TwoDiameters.Contradict(timeline, i, airway.Device);
            }

            unread = Math.Max(unread, fact.EffectiveFrom);
        }

        return unread >= 0 && (unread > airway.From || airway.DiameterFact < 0);
    }
}
