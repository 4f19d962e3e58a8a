namespace AirwayGuard.Sandbox.Storage;

/// <summary>The tables of the one database file.</summary>
internal static class Schema
{
    /// <summary>Counted up with every change of the tables.</summary>
    public const long Version = 1;

    public const string Create = """
        CREATE TABLE IF NOT EXISTS setting (name TEXT PRIMARY KEY, value INTEGER NOT NULL) WITHOUT ROWID;
        CREATE TABLE IF NOT EXISTS resource (
            rid INTEGER PRIMARY KEY, type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL,
            updated INTEGER NOT NULL, deleted INTEGER NOT NULL, seq INTEGER NOT NULL, UNIQUE (type, id));
        CREATE INDEX IF NOT EXISTS resource_updated ON resource (type, updated);
        CREATE TABLE IF NOT EXISTS version (
            seq INTEGER PRIMARY KEY, type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL,
            updated INTEGER NOT NULL, method TEXT NOT NULL, body BLOB NOT NULL, UNIQUE (type, id, version));
        CREATE TABLE IF NOT EXISTS index_token (
            key TEXT NOT NULL, code TEXT NOT NULL, system TEXT NOT NULL, rid INTEGER NOT NULL,
            PRIMARY KEY (key, code, system, rid)) WITHOUT ROWID;
        CREATE INDEX IF NOT EXISTS index_token_rid ON index_token (rid);
        CREATE TABLE IF NOT EXISTS index_reference (
            key TEXT NOT NULL, target TEXT NOT NULL, type TEXT NOT NULL, base TEXT NOT NULL, rid INTEGER NOT NULL,
            PRIMARY KEY (key, target, type, base, rid)) WITHOUT ROWID;
        CREATE INDEX IF NOT EXISTS index_reference_rid ON index_reference (rid);
        CREATE TABLE IF NOT EXISTS index_date (
            key TEXT NOT NULL, low INTEGER NOT NULL, high INTEGER NOT NULL, rid INTEGER NOT NULL,
            PRIMARY KEY (key, low, high, rid)) WITHOUT ROWID;
        CREATE INDEX IF NOT EXISTS index_date_rid ON index_date (rid);
        CREATE TABLE IF NOT EXISTS index_string (
            key TEXT NOT NULL, folded TEXT NOT NULL, exact TEXT NOT NULL, rid INTEGER NOT NULL,
            PRIMARY KEY (key, folded, exact, rid)) WITHOUT ROWID;
        CREATE INDEX IF NOT EXISTS index_string_rid ON index_string (rid);
        CREATE TABLE IF NOT EXISTS index_number (
            key TEXT NOT NULL, value REAL NOT NULL, system TEXT NOT NULL, code TEXT NOT NULL, unit TEXT NOT NULL, rid INTEGER NOT NULL,
            PRIMARY KEY (key, value, system, code, unit, rid)) WITHOUT ROWID;
        CREATE INDEX IF NOT EXISTS index_number_rid ON index_number (rid);
        CREATE TABLE IF NOT EXISTS notification (
            seq INTEGER PRIMARY KEY AUTOINCREMENT, subscription TEXT NOT NULL, version_seq INTEGER NOT NULL,
            attempts INTEGER NOT NULL, due INTEGER NOT NULL);
        CREATE INDEX IF NOT EXISTS notification_subscription ON notification (subscription, seq);
        """;
}
