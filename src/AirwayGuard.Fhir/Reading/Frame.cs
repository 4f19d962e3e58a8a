using AirwayGuard.Core.Charting;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What the facts of one resource share: whom they are about, when, and what they belong to.</summary>
internal struct Frame
{
    public Entity About, Encounter, Device, Act, Group;
    public FactMarks Marks;
    public short OffsetMinutes;
    public long From, To;

    /// <summary>Holds without a time of its own.</summary>
    public static Frame Timeless(Entity about) =>
        new() { About = about, Marks = FactMarks.Timeless, From = long.MinValue, To = long.MaxValue };
}
