using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// What an order of airway suction says by its coded parts and in its texts, and what was not read: one entry of the list
/// <c>orders</c> of <c>check</c>. Null where the order does not say, false where it says no.
/// </summary>
/// <param name="Order"><c>Type/id</c>.</param>
/// <param name="Part">Number of the airway-suction order within the resource, from 1; coded parts belong to the first.</param>
/// <param name="VacuumExclusive">The upper value itself is not allowed ("less than").</param>
/// <param name="VacuumUnit">UCUM; null where none was given, <c>?</c> where it is not known.</param>
/// <param name="EveryHours">Interval of suctioning.</param>
/// <param name="Depth">A word, or centimetres as text with their unit.</param>
/// <param name="DoNotSuction">Null where nobody can tell whether the whole act is forbidden.</param>
/// <param name="Unread">Texts left unread, as written: charted content, not for logs.</param>
public sealed record OrderWords(
    string Order, int Part, decimal? VacuumLow, decimal? VacuumHigh, bool VacuumExclusive, string? VacuumUnit, decimal? CatheterFr,
    decimal? EveryHours, bool? ByClock, bool? AsNeeded, bool? Saline, string? System, string? Depth, bool? Preoxygenate, bool? DoNotSuction,
    IReadOnlyList<string> Unread)
{
    /// <summary>Whether the vacuum of this one is judged before that of another: one is given, without doubt about its unit, and the deeper.</summary>
    public bool AllowsMoreThan(OrderWords other) =>
        Value(this) is { } own && (Value(other) is not { } others || OrderVacuumWords.IsJudgedBefore(own, others));

    /// <summary>
    /// This order with what another says of it: the higher vacuum and the larger catheter count, else this one goes first, and what the other says
    /// against it is named as not used.
    /// </summary>
    public OrderWords With(OrderWords other)
    {
        var (judged, less) = other.AllowsMoreThan(this) ? (other, this) : (this, other);
        var hasLow = judged.VacuumHigh is null || (less.VacuumHigh is null && less.VacuumUnit == judged.VacuumUnit);
        return WithRest(other) with
        {
            VacuumLow = judged.VacuumLow ?? (hasLow ? less.VacuumLow : null),
            VacuumHigh = judged.VacuumHigh,
            VacuumExclusive = judged.VacuumExclusive,
            VacuumUnit = judged.VacuumHigh is null && judged.VacuumLow is null ? less.VacuumUnit : judged.VacuumUnit,
        };
    }

    private OrderWords WithRest(OrderWords other) => this with
    {
        CatheterFr = Larger(CatheterFr, other.CatheterFr),
        EveryHours = EveryHours ?? other.EveryHours,
        ByClock = ByClock ?? other.ByClock,
        AsNeeded = AsNeeded ?? other.AsNeeded,
        Saline = Saline ?? other.Saline,
        System = System ?? other.System,
        Depth = Depth ?? other.Depth,
        Preoxygenate = Preoxygenate ?? other.Preoxygenate,
        DoNotSuction = DoNotSuction | other.DoNotSuction,
        Unread = [.. Unread, .. Against(other), .. other.Unread],
    };

    private IEnumerable<string> Against(OrderWords other)
    {
        var depth = Depth is not null && other.Depth is not null && Depth != other.Depth && IsLength(Depth) == IsLength(other.Depth);
        return new (bool Differs, string Name)[]
        {
            (Saline is { } saline && other.Saline == !saline, NameOf(Concepts.SalineInstilled, other.Saline == true)),
            (System is not null && other.System is not null && System != other.System, other.System ?? ""),
            (depth, other.Depth ?? ""),
            (Preoxygenate is { } oxygen && other.Preoxygenate == !oxygen, NameOf(Concepts.Preoxygenation, other.Preoxygenate == true)),
            (EveryHours is { } hours && other.EveryHours is { } otherHours && hours != otherHours, string.Create(CultureInfo.InvariantCulture, $"every {other.EveryHours} h")),
            (AsNeeded is { } needed && other.AsNeeded == !needed, NameOf(Concepts.OrderAsNeeded, other.AsNeeded == true)),
        }.Where(one => one.Differs).Select(one => one.Name).Distinct(StringComparer.Ordinal);
    }

    private static bool IsLength(string depth) => char.IsAsciiDigit(depth[0]);

    /// <summary>What a part says yes or no to, as it is named where it is not used.</summary>
    internal static string NameOf(Concept concept, bool says)
    {
        var name = concept == Concepts.SalineInstilled ? "saline" : concept == Concepts.Preoxygenation ? "pre-oxygenation" : concept == Concepts.OrderAsNeeded ? "as needed" : "by the clock";
        return says ? name : concept == Concepts.OrderAsNeeded || concept == Concepts.OrderByClock ? "not " + name : "no " + name;
    }

    private static decimal? Larger(decimal? one, decimal? other) => one is null ? other : other is null ? one : Math.Max(one.Value, other.Value);

    private static FactValue? Value(OrderWords words) => words.VacuumHigh is { } high && FactValue.TryNumber(high, Units.FromUcum(words.VacuumUnit ?? ""), out var value) ? value : null;

    /// <summary>Says which order, not what it says.</summary>
    public override string ToString() => $"OrderWords({Part})";
}
