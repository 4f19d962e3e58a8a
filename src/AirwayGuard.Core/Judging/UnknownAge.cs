namespace AirwayGuard.Core.Judging;

/// <summary>What to do where the age is not known (contract.md §2).</summary>
public enum UnknownAge : byte
{
    CannotTell, StrictestBand,
}
