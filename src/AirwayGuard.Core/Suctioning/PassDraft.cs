using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>A pass while its rows are being found.</summary>
/// <param name="To">−1 where no end is charted.</param>
/// <param name="Use">What its rows say was suctioned, as <see cref="SuctionUse"/> gives it.</param>
internal readonly record struct PassDraft(
    Entity Anchor, PassTier Tier, Entity Encounter, Entity Group, long From, long To, short OffsetMinutes, Entity Parent, int Use = 0)
{
    /// <summary>It takes its rows with it and is not judged.</summary>
    public bool IsOther => SuctionUse.IsOther(Use);

    public static PassDraft Of(in Fact fact, PassTier tier)
    {
        var isPeriod = fact.EffectiveTo != fact.EffectiveFrom;
        var end = isPeriod && fact.EffectiveTo != long.MaxValue ? fact.EffectiveTo : -1;
        return new PassDraft(fact.Row, tier, fact.Encounter, fact.Group, fact.EffectiveFrom, end, fact.OffsetMinutes, default);
    }

    /// <summary>Encounters agree where both are named.</summary>
    public bool Fits(Entity encounter) => Encounter.IsNone || encounter.IsNone || Encounter == encounter;
}
