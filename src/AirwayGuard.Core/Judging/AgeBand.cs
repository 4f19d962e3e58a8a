namespace AirwayGuard.Core.Judging;

/// <summary>Age bands, in whole days at the event; <see cref="Unknown"/> where the charted birth date leaves several possible, or there is none.</summary>
public enum AgeBand : byte
{
    /// <summary>Day 0 to 28 inclusive.</summary>
    Neonate,

    /// <summary>To the day before the first birthday.</summary>
    Infant,

    /// <summary>To the day before the 18th birthday.</summary>
    Child,

    Adult,
    Unknown,
}
