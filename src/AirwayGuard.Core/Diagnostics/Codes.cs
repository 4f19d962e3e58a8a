namespace AirwayGuard.Core.Diagnostics;

/// <summary>Every message a user can meet, one partial file per area.</summary>
public static partial class Codes
{
}
