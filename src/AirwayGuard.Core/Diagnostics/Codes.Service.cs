namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    public static readonly DiagnosticCode OptionInvalid = new("AG1001", "A setting is not valid", "Correct it in appsettings.json, the environment or on the command line.");
    public static readonly DiagnosticCode AddressNotLoopback = new("AG1002", "Address is not a loopback one", "Listen on 127.0.0.1, or set AirwayGuard:AllowOtherAddresses knowing that there is no sign-in.");
    public static readonly DiagnosticCode AddressInUse = new("AG1003", "Address is in use", "Stop the other process or give another address with --urls.");
    public static readonly DiagnosticCode WardNotLoaded = new("AG1004", "The demo ward could not be loaded", "Start again with an empty data folder.");
    public static readonly DiagnosticCode DemoDataUnusable = new("AG1019", "The demo's data cannot be used", "Delete the demo's data folder, or name another one with --AirwayGuard:DataDirectory; README.md says where it lies. The demo is loaded anew.");
    public static readonly DiagnosticCode LedgerNotEmpty = new("AG1010", "The folder is not empty", "Name a new or empty folder: what a ledger holds already would be judged too.");
    public static readonly DiagnosticCode ParkedUnknown = new("AG5002", "Nothing parked under this number", "airwayguard parked list names what is parked; a number goes when its thing is put back, dropped or overtaken.");
    public static readonly DiagnosticCode ParkedWhileServing = new("AG5003", "The service is running", "A ledger has one writer: stop the service, retry or drop, and start it again; parked list and show work meanwhile.");
    public static readonly DiagnosticCode ParkedStill = new("AG5004", "Still not to be read", "It stays parked; mend its source or the map first.");
    public static readonly DiagnosticCode ParkedBodyGone = new("AG5005", "Nothing left to read again", "Its body was purged after the retention period; drop it with a reason.");
    public static readonly DiagnosticCode StepFailed = new("AG1012", "A part of the service fails", "It is tried again with growing waits; if it lasts, look at the disk and the log, and report it.");
    public static readonly DiagnosticCode SendingFailed = new("AG5006", "Sending met a fault of its own", "It is tried again, then set aside; report it, and retry it after an update.");
    public static readonly DiagnosticCode Unsent = new("AG5007", "Findings wait to be written to the server", "Nothing is lost: they are tried again until the server takes them. It answers what it is asked, and takes no writes or too few: look whether it is read-only for now, and how busy it is.");
    public static readonly DiagnosticCode NoSink = new("AG5001", "Nothing takes this message", "Retry it once a sink for its kind is configured.");
    public static readonly DiagnosticCode DataFolderFull = new("AG1020", "The data folder has no room", "Nothing is lost: what could not be kept is asked for again, and what could not be judged or sent waits. Make room on the disk of AirwayGuard:DataDirectory; the service goes on by itself.");
    public static readonly DiagnosticCode DataFolderOpen = new("AG1022", "Other accounts can read the data folder", "It holds patient data. Take the rights of group and others away from the folder of AirwayGuard:DataDirectory, as with chmod 700; the service changes no rights of what is there already.");
    public static readonly DiagnosticCode SettingTwice = new("AG1021", "A setting is given twice on the command line", "Give it once: which of the two was meant, nobody can tell.");
}
