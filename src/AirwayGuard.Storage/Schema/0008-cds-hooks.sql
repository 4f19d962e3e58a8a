-- Tokens that may be used once; one need not be remembered after its until.
CREATE TABLE used_tokens (
    issuer TEXT NOT NULL,
    id TEXT NOT NULL,
    until INTEGER NOT NULL,
    PRIMARY KEY (issuer, id)
) WITHOUT ROWID, STRICT;
CREATE INDEX used_tokens_by_until ON used_tokens (until);

-- Cards given in answer to questions. check_id is empty where a card says what could not be judged; subject is none where nobody knows whose
-- the question was. content is patient data.
CREATE TABLE cards (
    card BLOB PRIMARY KEY,
    service TEXT NOT NULL,
    hook TEXT NOT NULL,
    at INTEGER NOT NULL,
    basis INTEGER NOT NULL,
    subject INTEGER,
    check_id TEXT NOT NULL,
    severity INTEGER NOT NULL,
    content TEXT NOT NULL
) STRICT;
CREATE INDEX cards_by_time ON cards (at, card);

-- What people did with them, as reported: outcome 0 accepted, 1 overridden. comment is patient data, and stands nowhere else.
-- suggestions: the keys of those taken, 16 bytes each. kept_at: when the report came.
CREATE TABLE card_feedback (
    card BLOB NOT NULL,
    at INTEGER NOT NULL,
    outcome INTEGER NOT NULL,
    reason_system TEXT NOT NULL,
    reason_code TEXT NOT NULL,
    reason_display TEXT NOT NULL,
    comment TEXT NOT NULL,
    suggestions BLOB NOT NULL,
    kept_at INTEGER NOT NULL,
    PRIMARY KEY (card, at, outcome)
) WITHOUT ROWID, STRICT;
