namespace AirwayGuard.Core.Orders;

/// <summary>Where in the text an order says something.</summary>
public readonly record struct TakenFrom(OrderField Field, TextSpan Span);
