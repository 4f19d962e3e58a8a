namespace AirwayGuard.Core.Orders;

/// <summary>Why a way of writing is error-prone.</summary>
public enum ErrorProneKind : byte
{
    /// <summary>8.0 may be read as 80.</summary>
    TrailingZero,

    /// <summary>.5 may be read as 5.</summary>
    NoLeadingZero,

    /// <summary>cc may be read as 00 or units.</summary>
    CubicCentimetres,

    /// <summary>qd, qod and od may be read as each other.</summary>
    DailyAbbreviation,
}

/// <summary>A way of writing that is published as error-prone, and its place.</summary>
public readonly record struct ErrorProneForm(ErrorProneKind Kind, TextSpan Span);
