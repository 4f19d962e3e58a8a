namespace AirwayGuard.Core.Orders;

/// <summary>What a place in an order's text is about.</summary>
internal enum Topic : byte
{
    Unknown,

    /// <summary>Suction of the artificial airway, or suction of nothing named.</summary>
    Airway,

    /// <summary>The tube itself, without a word of suction.</summary>
    Tube,

    /// <summary>Suction of something else, or what is drained.</summary>
    Elsewhere,

    /// <summary>Another act, a measured quantity, a task of observing.</summary>
    Other,
}
