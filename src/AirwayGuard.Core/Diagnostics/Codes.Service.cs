namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    public static readonly DiagnosticCode NoSink = new("AG5001", "Nothing takes this message", "Retry it once a sink for its kind is configured.");
}
