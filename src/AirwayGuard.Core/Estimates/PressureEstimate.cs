using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Estimates;

/// <summary>How far below atmosphere a vacuum may bring the trachea, told as coarsely as the bench allows. It explains; nothing is judged by it.</summary>
/// <param name="About">cm[H2O]; null where it is nearer to 0 than to the finest step the bench told, 0.5.</param>
/// <param name="Low">cm[H2O], rounded down; the bench's own values lie from here</param>
/// <param name="High">cm[H2O], rounded up; to here.</param>
/// <param name="French">The catheter it was made for, Fr.</param>
/// <param name="Millimetres">The inner diameter in use it was made for, mm.</param>
/// <param name="Vacuum">The vacuum it was made for, magnitude in <paramref name="VacuumUnit"/>.</param>
public sealed record PressureEstimate(decimal? About, decimal Low, decimal High, decimal French, decimal Millimetres, decimal Vacuum, Unit VacuumUnit)
{
    /// <summary>Of <see cref="About"/>, <see cref="Low"/> and <see cref="High"/>.</summary>
    public const Unit Unit = Quantities.Unit.CmH2O;

    /// <summary>Ids of the benches it comes from, as <see cref="TrachealPressure"/> cites them.</summary>
    public static IReadOnlyList<string> Sources { get; } = ["nakstad-2017", "kiraly-2008"];

    /// <summary>The two ranges have nothing in common: told again, it would say something else.</summary>
    public bool IsApartFrom(PressureEstimate other) => Low > other.High || other.Low > High;

    /// <summary>Says what it is: its numbers come from a chart.</summary>
    public override string ToString() => nameof(PressureEstimate);
}
