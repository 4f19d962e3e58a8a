-- When a thing was first set aside; at is the latest time. A number is never given twice, so that a person's list stays true.
CREATE TABLE parked_things (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    arrival INTEGER,
    outgoing BLOB,
    code TEXT NOT NULL,
    place TEXT NOT NULL,
    first_at INTEGER NOT NULL,
    at INTEGER NOT NULL
) STRICT;
INSERT INTO parked_things (number, arrival, outgoing, code, place, first_at, at) SELECT number, arrival, outgoing, code, place, at, at FROM parked;
DROP TABLE parked;
ALTER TABLE parked_things RENAME TO parked;
CREATE INDEX parked_by_outgoing ON parked (outgoing) WHERE outgoing IS NOT NULL;
