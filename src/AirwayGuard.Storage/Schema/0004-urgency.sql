-- Old work does not hold up what is new. fresh: something of it became known within the hour before it was kept. The others are taken by
-- the effective time of what changed, the earliest first.
ALTER TABLE subjects ADD COLUMN fresh INTEGER NOT NULL DEFAULT 0;
CREATE INDEX subjects_fresh ON subjects (coalesce(claimed_since, since)) WHERE fresh = 1 AND coalesce(claimed_since, since) IS NOT NULL;
CREATE INDEX subjects_backlog ON subjects (min(coalesce(affected_from, claimed_from), coalesce(claimed_from, affected_from)), coalesce(claimed_since, since))
    WHERE fresh = 0 AND coalesce(claimed_since, since) IS NOT NULL;
-- urgency: 0 fresh, 1 stands, 2 history.
ALTER TABLE outbox ADD COLUMN urgency INTEGER NOT NULL DEFAULT 0;
DROP INDEX outbox_waiting;
CREATE INDEX outbox_waiting ON outbox (urgency, not_before, queued) WHERE state <= 1;
