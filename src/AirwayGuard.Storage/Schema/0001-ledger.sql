-- Times are UTC ticks (100 ns since 0001-01-01), positions and counts integers, keys 16 bytes big-endian. No time is text.

CREATE TABLE binding (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    server_base TEXT NOT NULL,
    server_identity TEXT NOT NULL
) STRICT;

-- entity: kind in the upper four bits, key in the lower 28 of a signed 32-bit number.
CREATE TABLE entities (
    entity INTEGER PRIMARY KEY,
    kind INTEGER NOT NULL,
    name TEXT NOT NULL,
    identity TEXT,
    first_known INTEGER NOT NULL
) STRICT;
CREATE UNIQUE INDEX entities_by_name ON entities (kind, name);

-- One row for each resource over all its versions: which version stands, and since when the resource is known.
CREATE TABLE resources (
    row INTEGER PRIMARY KEY,
    newest INTEGER NOT NULL,
    newest_known_at INTEGER NOT NULL,
    newest_kind INTEGER NOT NULL,
    row_known INTEGER NOT NULL
) STRICT;

CREATE TABLE arrivals (
    position INTEGER PRIMARY KEY,
    kind INTEGER NOT NULL,
    source TEXT NOT NULL,
    type TEXT,
    id TEXT,
    version TEXT,
    row INTEGER,
    known_at INTEGER NOT NULL,
    known_by INTEGER NOT NULL,
    digest BLOB NOT NULL
) STRICT;
CREATE UNIQUE INDEX arrivals_by_version ON arrivals (row, kind, version) WHERE row IS NOT NULL;

-- What can be purged while the rest still verifies. codec 0: as received; 1: Brotli. length: of the body as received.
CREATE TABLE bodies (
    position INTEGER PRIMARY KEY,
    salt BLOB NOT NULL,
    codec INTEGER NOT NULL,
    length INTEGER NOT NULL,
    body BLOB NOT NULL
) STRICT;

-- what: concept << 32 | marks << 16 | offset minutes; shape: symbol << 32 | scale << 24 | kind << 16 | unit << 8 | comparator.
CREATE TABLE facts (
    about INTEGER NOT NULL,
    effective_from INTEGER NOT NULL,
    position INTEGER NOT NULL,
    ordinal INTEGER NOT NULL,
    what INTEGER NOT NULL,
    known_until INTEGER NOT NULL,
    effective_to INTEGER NOT NULL,
    row_known INTEGER NOT NULL,
    encounter INTEGER NOT NULL,
    device INTEGER NOT NULL,
    act INTEGER NOT NULL,
    row INTEGER NOT NULL,
    group_key INTEGER NOT NULL,
    shape INTEGER NOT NULL,
    digits INTEGER NOT NULL,
    PRIMARY KEY (about, effective_from, position, ordinal, what)
) WITHOUT ROWID, STRICT;
CREATE INDEX facts_by_position ON facts (position);
-- Facts that last: a window finds those that began before it and reach into it.
CREATE INDEX facts_lasting ON facts (about, effective_to) WHERE effective_to > effective_from;

CREATE TABLE links (
    from_entity INTEGER NOT NULL,
    position INTEGER NOT NULL,
    ordinal INTEGER NOT NULL,
    kind INTEGER NOT NULL,
    to_entity INTEGER NOT NULL,
    from_time INTEGER NOT NULL,
    to_time INTEGER NOT NULL,
    row INTEGER NOT NULL,
    row_known INTEGER NOT NULL,
    known_until INTEGER NOT NULL,
    PRIMARY KEY (from_entity, position, ordinal, kind, to_entity, from_time, to_time)
) WITHOUT ROWID, STRICT;
CREATE INDEX links_by_to ON links (to_entity);
CREATE INDEX links_by_position ON links (position);

CREATE TABLE cursors (
    name TEXT PRIMARY KEY,
    server_time INTEGER NOT NULL,
    last_id TEXT
) WITHOUT ROWID, STRICT;

-- Whom to judge. since: position of the oldest change not yet judged, kept while claimed. The claimed range returns with a
-- claim that ran out.
CREATE TABLE subjects (
    subject INTEGER PRIMARY KEY,
    since INTEGER,
    affected_from INTEGER,
    affected_to INTEGER,
    fence INTEGER NOT NULL DEFAULT 0,
    leased_until INTEGER,
    claimed_since INTEGER,
    claimed_from INTEGER,
    claimed_to INTEGER
) STRICT;
CREATE INDEX subjects_waiting ON subjects (coalesce(claimed_since, since)) WHERE coalesce(claimed_since, since) IS NOT NULL;

CREATE TABLE bases (
    basis INTEGER PRIMARY KEY,
    sha256 TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE judged (
    subject INTEGER NOT NULL,
    fence INTEGER NOT NULL,
    up_to INTEGER NOT NULL,
    as_of INTEGER NOT NULL,
    basis INTEGER NOT NULL,
    PRIMARY KEY (subject, fence)
) WITHOUT ROWID, STRICT;

CREATE TABLE findings (
    key BLOB PRIMARY KEY,
    kind INTEGER NOT NULL,
    check_id TEXT NOT NULL,
    subject INTEGER NOT NULL,
    state INTEGER NOT NULL,
    parent BLOB NOT NULL,
    count INTEGER NOT NULL,
    first INTEGER NOT NULL,
    latest INTEGER NOT NULL,
    late INTEGER NOT NULL,
    judged_at INTEGER NOT NULL,
    basis INTEGER NOT NULL,
    content BLOB NOT NULL
) STRICT;
CREATE INDEX findings_by_subject ON findings (subject);

-- state 0 pending, 1 unknown, 2 confirmed, 3 parked. A message whose revision grew while it was being sent stays pending.
CREATE TABLE outbox (
    key BLOB PRIMARY KEY,
    kind TEXT NOT NULL,
    subject INTEGER NOT NULL,
    content TEXT NOT NULL,
    revision INTEGER NOT NULL,
    queued INTEGER NOT NULL,
    state INTEGER NOT NULL,
    attempts INTEGER NOT NULL,
    not_before INTEGER NOT NULL,
    fence INTEGER NOT NULL,
    leased_until INTEGER,
    claimed_revision INTEGER,
    server_id TEXT,
    server_version TEXT,
    problem_code TEXT,
    settled_at INTEGER
) STRICT;
CREATE INDEX outbox_waiting ON outbox (not_before, queued) WHERE state <= 1;
CREATE INDEX outbox_by_state ON outbox (state);

CREATE TABLE due (
    subject INTEGER NOT NULL,
    at INTEGER NOT NULL,
    check_id TEXT NOT NULL,
    PRIMARY KEY (subject, at, check_id)
) WITHOUT ROWID, STRICT;
CREATE INDEX due_by_time ON due (at);

CREATE TABLE parked (
    number INTEGER PRIMARY KEY,
    arrival INTEGER,
    outgoing BLOB,
    code TEXT NOT NULL,
    place TEXT NOT NULL,
    at INTEGER NOT NULL
) STRICT;

CREATE TABLE audit (
    number INTEGER PRIMARY KEY,
    chain INTEGER NOT NULL,
    at INTEGER NOT NULL,
    what TEXT NOT NULL,
    subject TEXT NOT NULL,
    detail TEXT NOT NULL,
    body_digest TEXT NOT NULL,
    previous_hash TEXT NOT NULL,
    hash TEXT NOT NULL
) STRICT;
CREATE TABLE audit_salts (
    number INTEGER PRIMARY KEY,
    salt BLOB NOT NULL
) STRICT;
CREATE TRIGGER audit_is_not_edited BEFORE UPDATE ON audit BEGIN SELECT raise(ABORT, 'the audit trail is append-only'); END;
CREATE TRIGGER audit_is_not_cut BEFORE DELETE ON audit BEGIN SELECT raise(ABORT, 'the audit trail is append-only'); END;
