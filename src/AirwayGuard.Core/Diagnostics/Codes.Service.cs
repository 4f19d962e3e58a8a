namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    public static readonly DiagnosticCode LedgerNotEmpty = new("AG1010", "The folder is not empty", "Name a new or empty folder: what a ledger holds already would be judged too.");
    public static readonly DiagnosticCode NoSink = new("AG5001", "Nothing takes this message", "Retry it once a sink for its kind is configured.");
}
