namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    public static readonly DiagnosticCode OptionInvalid = new("AG1001", "A setting is not valid", "Correct it in appsettings.json, the environment or on the command line.");
    public static readonly DiagnosticCode AddressNotLoopback = new("AG1002", "Address is not a loopback one", "Listen on 127.0.0.1, or set AirwayGuard:AllowOtherAddresses knowing that there is no sign-in.");
    public static readonly DiagnosticCode AddressInUse = new("AG1003", "Address is in use", "Stop the other process or give another address with --urls.");
    public static readonly DiagnosticCode WardNotLoaded = new("AG1004", "The demo ward could not be loaded", "Start again with an empty data folder.");
    public static readonly DiagnosticCode LedgerNotEmpty = new("AG1010", "The folder is not empty", "Name a new or empty folder: what a ledger holds already would be judged too.");
    public static readonly DiagnosticCode NoSink = new("AG5001", "Nothing takes this message", "Retry it once a sink for its kind is configured.");
}
