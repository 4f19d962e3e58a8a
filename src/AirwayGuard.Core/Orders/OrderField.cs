namespace AirwayGuard.Core.Orders;

/// <summary>What an order of suction may say.</summary>
public enum OrderField : byte
{
    Vacuum,
    Catheter,
    Interval,
    ByClock,
    AsNeeded,
    Saline,
    System,
    Depth,
    Preoxygenation,
    DoNotSuction,
}
