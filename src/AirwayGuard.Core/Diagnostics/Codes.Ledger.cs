namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // The ledger cannot be used as configured: 16xx.
    public static readonly DiagnosticCode LedgerInUse = new("AG1601", "Ledger in use by another process", "Stop the other process, or give this one a data directory of its own.");
    public static readonly DiagnosticCode LedgerOfOtherServer = new("AG1602", "Ledger belongs to another server", "Use the data directory of this server, or a new one; a ledger never serves two.");
    public static readonly DiagnosticCode LedgerNewer = new("AG1603", "Ledger written by a newer program", "Start the newer version again, or restore a backup made before the upgrade.");
    public static readonly DiagnosticCode LedgerUnwritable = new("AG1604", "Ledger folder cannot be used", "Make the data directory and what lies in it exist and writable for this account, on a local disk.");
    public static readonly DiagnosticCode LedgerDamaged = new("AG1605", "Ledger file is damaged", "Stop the service, keep the file as it is and restore a backup; the sweep fetches what is missing since.");
    public static readonly DiagnosticCode LedgerMissing = new("AG1606", "No ledger in this folder", "Give the service's data folder (AirwayGuard:DataDirectory) with --data.");
    public static readonly DiagnosticCode LedgerMoved = new("AG1608", "Ledger was taken away or replaced while in use", "Put back the folder it was using, with all its files, or a backup, and start it again; what was kept since went into the file that was taken away.");
    public static readonly DiagnosticCode LedgerOlder = new("AG1607", "Ledger written by an older program", "Start the service of this version once; it brings the ledger forward.");
}
