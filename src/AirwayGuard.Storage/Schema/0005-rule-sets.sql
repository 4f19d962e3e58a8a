-- Documents of the rule sets that were in force, so that what was judged by one can be judged again.
CREATE TABLE rule_sets (
    sha256 TEXT PRIMARY KEY,
    document BLOB NOT NULL
) STRICT;
