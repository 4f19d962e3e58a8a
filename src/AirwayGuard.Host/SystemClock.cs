using System.Diagnostics.CodeAnalysis;

namespace AirwayGuard.Host;

/// <summary>The one place that names the machine's clock; everything else is handed it.</summary>
internal static class SystemClock
{
    [SuppressMessage("ApiDesign", "RS0030", Justification = "Composition hands the clock in from here.")]
    public static readonly TimeProvider Instance = TimeProvider.System;
}
