using System.Collections.Immutable;

namespace AirwayGuard.Core.Orders;

/// <summary>What an order for airway suction says (contract.md §5): null where it does not say, false where it says no.</summary>
/// <param name="Order"><c>ServiceRequest/id</c> or <c>DeviceRequest/id</c>.</param>
/// <param name="Part">Numbers the airway-suction orders of one resource, from 1.</param>
/// <param name="VacuumLow">Lower end of a range, magnitude.</param>
/// <param name="VacuumHigh">Upper end, cap or single value, magnitude.</param>
/// <param name="VacuumExclusive">"Less than": the number itself is left out.</param>
/// <param name="VacuumUnit">UCUM code; null where none is stated.</param>
/// <param name="EveryHours">Interval of suctioning, hours.</param>
/// <param name="Depth">A word, or centimetres as a number.</param>
/// <param name="Unread">Stretches of text that were not read.</param>
public sealed record OrderContent(
    string Order,
    int Part,
    decimal? VacuumLow,
    decimal? VacuumHigh,
    bool? VacuumExclusive,
    string? VacuumUnit,
    decimal? CatheterFr,
    decimal? EveryHours,
    bool? ByClock,
    bool? AsNeeded,
    bool? Saline,
    string? System,
    string? Depth,
    bool? Preoxygenate,
    bool DoNotSuction,
    ImmutableArray<string> Unread)
{
    /// <summary>Says which order only: its texts are patient data.</summary>
    public override string ToString() => $"OrderContent({Order}, {Part})";
}
