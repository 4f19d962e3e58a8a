namespace AirwayGuard.Core.Orders;

/// <summary>A time or interval as written.</summary>
/// <param name="Hours">Between two; the shorter end of a range; null for a shift or times of day.</param>
/// <param name="IsBound">It bounds how often suction may be done, and asks for none.</param>
/// <param name="IsFloor">It is the least that is asked for, beside what need asks.</param>
/// <param name="First">Index of its first piece.</param>
/// <param name="Last">Index of its last.</param>
internal readonly record struct Interval(decimal? Hours, bool IsBound, bool IsFloor, int First, int Last, TextSpan Span);
