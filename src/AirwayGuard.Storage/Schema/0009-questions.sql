-- A question reads a chart by concept, so that what it costs does not grow with what else is charted. what >> 32 is the concept.
CREATE INDEX facts_by_concept ON facts (about, what >> 32, effective_from);
CREATE INDEX facts_lasting_by_concept ON facts (about, what >> 32, effective_to) WHERE effective_to > effective_from;
-- Links between patients, encounters, places, devices and metrics, without those of acts, orders and rows; 13 is named with, of which each
-- reading that names its device makes one.
CREATE INDEX links_standing_from ON links (from_entity) WHERE kind <= 5;
CREATE INDEX links_standing_to ON links (to_entity) WHERE kind <= 5;
CREATE INDEX links_named_from ON links (from_entity, to_time) WHERE kind = 13;
CREATE INDEX links_named_to ON links (to_entity, from_entity, to_time) WHERE kind = 13;
