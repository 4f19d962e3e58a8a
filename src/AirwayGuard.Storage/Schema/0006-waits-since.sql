-- Since when a message waits to be sent; a newer one of its key that takes its place waits since then too. Of what waits already that is not
-- known: the last try is as near as it comes, and what was never tried has none.
ALTER TABLE outbox ADD COLUMN waits_since INTEGER;
UPDATE outbox SET waits_since = settled_at WHERE state <= 1;
