using System.Diagnostics.CodeAnalysis;

namespace AirwayGuard.TestKit.Kills;

/// <summary>The machine's clock: processes that run for real live in no other time.</summary>
internal static class MachineClock
{
    [SuppressMessage("ApiDesign", "RS0030", Justification = "Handed in from here.")]
    public static readonly TimeProvider Instance = TimeProvider.System;
}
