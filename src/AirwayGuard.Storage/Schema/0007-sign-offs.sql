-- What named persons did to rule sets, in order: promoted, withdrawn, restored. Never changed, never deleted.
CREATE TABLE sign_offs (
    number INTEGER PRIMARY KEY,
    at INTEGER NOT NULL,
    act INTEGER NOT NULL,
    name TEXT NOT NULL,
    version TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    checks TEXT NOT NULL,
    units TEXT NOT NULL,
    by_whom TEXT NOT NULL,
    reason TEXT NOT NULL
) STRICT;
