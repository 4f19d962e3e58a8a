-- Judging that fails. attempts, first_tried: of the claims since the patient was last judged; not_before: of the next one.
ALTER TABLE subjects ADD COLUMN attempts INTEGER NOT NULL DEFAULT 0;
ALTER TABLE subjects ADD COLUMN first_tried INTEGER;
ALTER TABLE subjects ADD COLUMN not_before INTEGER;
-- Whose file could not be judged.
ALTER TABLE parked ADD COLUMN subject INTEGER;
CREATE INDEX parked_by_subject ON parked (subject) WHERE subject IS NOT NULL;
-- Since which position and time a basis is in force; the newest is. 0 for the first, which changed nothing.
ALTER TABLE bases ADD COLUMN since INTEGER;
ALTER TABLE bases ADD COLUMN since_at INTEGER;
