using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>One order of airway suction as its text says it. Null where it does not say, false where it says no.</summary>
public sealed record OrderPart
{
    /// <summary>The lower end of a range, a magnitude in <see cref="VacuumUnit"/>.</summary>
    public decimal? VacuumLow { get; init; }

    /// <summary>The upper end, a cap or the only value; a magnitude in <see cref="VacuumUnit"/>.</summary>
    public decimal? VacuumHigh { get; init; }

    /// <summary>The upper value itself is not allowed: less than.</summary>
    public bool VacuumExclusive { get; init; }

    /// <summary>None where the text gives a number without one.</summary>
    public Unit VacuumUnit { get; init; }

    /// <summary>Outside diameter, French; the largest that is allowed.</summary>
    public decimal? CatheterFr { get; init; }

    /// <summary>Hours between two suctions, also where it only bounds how often.</summary>
    public decimal? EveryHours { get; init; }

    /// <summary>Suction falls due by time whatever is found.</summary>
    public bool? ByClock { get; init; }

    public bool? AsNeeded { get; init; }

    public bool? Saline { get; init; }

    /// <summary>Only under a condition, which is its reason.</summary>
    public bool SalineIsConditional { get; init; }

    /// <summary>Volume each time, the largest that is named, mL.</summary>
    public decimal? SalineMillilitres { get; init; }

    /// <summary>open or closed.</summary>
    public string? System { get; init; }

    /// <summary>shallow or deep.</summary>
    public string? DepthWord { get; init; }

    /// <summary>Deepest allowed, cm.</summary>
    public decimal? DepthCentimetres { get; init; }

    /// <summary>Deep only under a condition, which is its reason.</summary>
    public bool DepthIsConditional { get; init; }

    /// <summary>Thick secretions are named: a reason that some checks take.</summary>
    public bool NamesThickSecretions { get; init; }

    public bool? Preoxygenate { get; init; }

    /// <summary>Inspired oxygen before the pass, percent.</summary>
    public decimal? OxygenPercent { get; init; }

    /// <summary>The whole act is forbidden; null where the text says both.</summary>
    public bool? DoNotSuction { get; init; } = false;

    /// <summary>full-line or intermittent where that is asked for; no limit can be held against it.</summary>
    public string? Mode { get; init; }

    /// <summary>Where each value stands in the text.</summary>
    public IReadOnlyList<TakenFrom> Taken { get; init; } = [];

    /// <summary>What belongs to this order and was not read.</summary>
    public IReadOnlyList<TextSpan> Unread { get; init; } = [];

    /// <summary>Something of the order was read.</summary>
    public bool SaysAnything => VacuumHigh is not null || CatheterFr is not null || EveryHours is not null || ByClock is not null || AsNeeded is not null || Saline is not null
        || System is not null || DepthWord is not null || DepthCentimetres is not null || Preoxygenate is not null || DoNotSuction != false || Mode is not null;
}
