namespace AirwayGuard.Host.Commands;

/// <summary>Exits of the command line.</summary>
internal static class ExitCodes
{
    /// <summary>No breach found; not "all well".</summary>
    public const int Clean = 0;

    /// <summary>At least one breach, or a rule set with faults.</summary>
    public const int Found = 1;

    /// <summary>Something could not be read at all.</summary>
    public const int Unreadable = 2;

    /// <summary>Wrong usage (sysexits' EX_USAGE).</summary>
    public const int Usage = 64;

    /// <summary>A fault of the program itself (sysexits' EX_SOFTWARE).</summary>
    public const int OwnFault = 70;
}
