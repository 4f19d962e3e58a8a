namespace AirwayGuard.Core.Ports;

/// <summary>What goes out first. Numbers are kept in the ledger.</summary>
public enum Urgency : byte
{
    /// <summary>It happened lately, or ends or takes back what is shown.</summary>
    Fresh = 0,

    /// <summary>It stands now, however long ago it began.</summary>
    Stands = 1,

    /// <summary>It happened long ago and is told for the record.</summary>
    History = 2,
}
