using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Something charted or linked that may start, change or end an airway.</summary>
/// <param name="Order">At one instant: 0 the end of a use or none, 1 the start of one, 2 a type row, 3 a diameter row.</param>
/// <param name="Type">Index of the answer charted; 0 for none.</param>
/// <param name="Fact">Index in the timeline of the row; −1 for a use.</param>
/// <param name="IsContradicted">Another size is told of the same tube at the same instant: that there is a tube is all that can be read.</param>
internal readonly record struct AirwayChange(long At, int Order, Entity Device, int Type, int Fact, bool IsContradicted = false);
