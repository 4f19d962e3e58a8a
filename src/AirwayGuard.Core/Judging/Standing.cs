namespace AirwayGuard.Core.Judging;

/// <summary>On what a standing check stands. A check that does not stand raises no Flag.</summary>
public enum Standing : byte
{
    Once,

    /// <summary>The regulator the row names, else the patient's episode.</summary>
    Regulator,
    Episode,
    Airway,
    Order,
    Outlet,
}
