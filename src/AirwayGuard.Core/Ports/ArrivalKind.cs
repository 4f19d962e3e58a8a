namespace AirwayGuard.Core.Ports;

/// <summary>What kind of thing arrived. All are inputs; all are kept.</summary>
public enum ArrivalKind : byte
{
    Resource, Deletion, PersonsAct, DueTime, Receipt, NewBasis,
}
