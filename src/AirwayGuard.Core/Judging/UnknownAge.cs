namespace AirwayGuard.Core.Judging;

/// <summary>What to do where the age is not known: leave it open, or take the strictest limit of the bands that are possible.</summary>
public enum UnknownAge : byte
{
    CannotTell, StrictestBand,
}
