using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Core.Suctioning;

/// <summary>One artificial airway while it is in use.</summary>
/// <param name="Identity">Its Device, else the row that first told of it.</param>
/// <param name="From">UTC ticks; <see cref="long.MinValue"/> where no start is charted.</param>
/// <param name="To">Exclusive; <see cref="long.MaxValue"/> while it is in use.</param>
/// <param name="Device">Its Device, or none.</param>
/// <param name="Type">Index of the answer tracheal-tube or tracheostomy-tube; 0 if not charted.</param>
/// <param name="DiameterFact">Index in the timeline of the fact that gives its inner diameter; −1 if none.</param>
/// <param name="DiameterIsOfAll">It is the first that is known of this tube, so that it is the one of the time before it was charted too.</param>
/// <param name="Episode">Index of its episode.</param>
public readonly record struct AirwaySpan(Entity Identity, long From, long To, Entity Device, int Type, int DiameterFact, int Episode, bool DiameterIsOfAll = false);

/// <summary>Unbroken time with some airway; gaps under one hour do not break it. Its identity is that of its first airway.</summary>
public readonly record struct EpisodeSpan(Entity Identity, long From, long To);

/// <summary>Which kind of evidence made a pass; a lower one only from rows that joined no pass of a higher one.</summary>
public enum PassTier : byte
{
    Procedure, SuctionPassRow, LooseRows,
}

/// <summary>One pass of a suction catheter.</summary>
/// <param name="Identity">Earliest known member; names it in keys.</param>
/// <param name="Anchor">The Procedure, suction-pass row, or first row it was made from.</param>
/// <param name="To">End, UTC ticks; −1 where no end is charted.</param>
/// <param name="FirstMember">Where its members begin in <see cref="Care.Members"/>.</param>
/// <param name="Regulator">The regulator its Procedure used, or none.</param>
/// <param name="Parent">The Procedure it is part of, or none.</param>
/// <param name="UseUnknown">What its own row says was suctioned cannot be read, so that nobody can tell whether it was the airway.</param>
public readonly record struct PassSpan(
    Entity Identity, Entity Anchor, PassTier Tier, Entity Encounter, long From, long To, short OffsetMinutes,
    int FirstMember, int MemberCount, Entity Regulator, Entity Parent, int Session, bool UseUnknown) : ITimed
{
    /// <inheritdoc />
    public long Begins => From;

    public bool HasEnd => To >= 0;
}

/// <summary>Passes of one patient in close succession.</summary>
/// <param name="FirstPass">Where its passes begin in <see cref="Care.PassesBySession"/>.</param>
/// <param name="UseUnknown">It is one pass of which nobody can tell what it served.</param>
public readonly record struct SessionSpan(Entity Identity, long From, long To, short OffsetMinutes, int FirstPass, int PassCount, bool UseUnknown);

/// <summary>Vacuum readings, set values and modes of one line at one instant.</summary>
/// <param name="FirstFact">Where its facts begin in <see cref="Care.SettingFacts"/>.</param>
/// <param name="Regulator">The regulator it names, or none.</param>
/// <param name="UseUnknown">A device's or place's row of which nobody says what the suction is used for.</param>
/// <param name="PatientUnclear">Two patients could be meant.</param>
public readonly record struct SettingSpan(
    Entity Identity, long At, short OffsetMinutes, Line Line, Entity Regulator, int FirstFact, int FactCount, int Pass, bool UseUnknown, bool PatientUnclear) : ITimed
{
    /// <inheritdoc />
    public long Begins => At;

    /// <summary>What nobody says of it, so that it cannot be judged.</summary>
    public Missing Lacks => PatientUnclear ? Missing.Patient : UseUnknown ? Missing.SuctionUse : Missing.Nothing;
}

/// <summary>An order for airway suction, with the device requests tied to it.</summary>
/// <param name="FirstFact">Where its facts begin in <see cref="Care.OrderFacts"/>.</param>
/// <param name="IsService">A ServiceRequest; false for equipment ordered alone.</param>
/// <param name="UseUnknown">Its parts say two things of what is to be suctioned, or say it so that it cannot be read.</param>
public readonly record struct OrderSpan(Entity Identity, long AuthoredOn, short OffsetMinutes, int FirstFact, int FactCount, bool IsService, bool UseUnknown)
{
    /// <summary>How many more facts lie behind its own: what its texts say against what is structured.</summary>
    public int OverruledCount { get; init; }
}

/// <summary>On what a standing finding stands.</summary>
/// <param name="Entity">Regulator, first airway of the episode, airway, order or outlet; the patient where there is no episode.</param>
public readonly record struct Line(LineKind Kind, Entity Entity);

public enum LineKind : byte
{
    Patient, Regulator, Episode, Airway, Order, Outlet,
}
