namespace AirwayGuard.Core.Orders;

/// <summary>What was read from an order's text.</summary>
/// <param name="Parts">The orders of airway suction in it, in the order in which they stand.</param>
/// <param name="Unread">What is left where no order was made of it.</param>
/// <param name="Forms">Error-prone ways of writing that were read rightly.</param>
/// <param name="Steps">Words looked at, also again: it grows with the length of the text.</param>
public sealed record OrderText(IReadOnlyList<OrderPart> Parts, IReadOnlyList<TextSpan> Unread, IReadOnlyList<ErrorProneForm> Forms, long Steps);
