#include "core/store/schema_v1.h"

namespace tarebook {

// What only SQLite knows: STRICT, WITHOUT ROWID, triggers.
const char* const kJournalSchemaV1 = R"sql(
CREATE TABLE migration(
  version INTEGER PRIMARY KEY,
  script TEXT NOT NULL,
  applied INTEGER NOT NULL
) STRICT;
CREATE TABLE journal(
  seq INTEGER PRIMARY KEY CHECK(seq > 0),
  id TEXT NOT NULL UNIQUE CHECK(length(id) BETWEEN 1 AND 64),
  recorded INTEGER NOT NULL,
  operator TEXT NOT NULL,
  occurred INTEGER NOT NULL,
  zone TEXT NOT NULL,
  kind TEXT NOT NULL,
  body TEXT NOT NULL,
  previous TEXT NOT NULL CHECK(length(previous) = 64),
  digest TEXT NOT NULL CHECK(length(digest) = 64)
) STRICT;
CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END;
CREATE TRIGGER journal_is_never_cut BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never cut'); END;
CREATE TRIGGER journal_goes_on_at_its_head BEFORE INSERT ON journal
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM journal)
  OR NEW.previous IS NOT coalesce((SELECT digest FROM journal WHERE seq = NEW.seq - 1),
     '0000000000000000000000000000000000000000000000000000000000000000')
BEGIN SELECT RAISE(ABORT, 'the journal goes on at its head'); END;
)sql";

#define TAREBOOK_LEG_ORDERS                                                                                  \
    "CREATE INDEX leg_by_source ON leg(source, occurred, seq, number);\n"                                    \
    "CREATE INDEX leg_by_target ON leg(target, occurred, seq, number);\n"
const char* const kLegOrdersV1 = TAREBOOK_LEG_ORDERS;
const char* const kDropLegOrdersV1 =
    "DROP INDEX IF EXISTS leg_by_source; DROP INDEX IF EXISTS leg_by_target;";

const char* const kViewSchemaV1 = R"sql(
CREATE TABLE subject(
  id INTEGER PRIMARY KEY,
  text TEXT NOT NULL UNIQUE
) STRICT;
CREATE TABLE touch(
  subject INTEGER NOT NULL REFERENCES subject(id),
  occurred INTEGER NOT NULL,
  seq INTEGER NOT NULL REFERENCES journal(seq),
  mass INTEGER NOT NULL CHECK(mass IN (0, 1)),
  reversed_by INTEGER,
  PRIMARY KEY(subject, occurred, seq)
) STRICT, WITHOUT ROWID;
CREATE TABLE reversal(
  entry INTEGER PRIMARY KEY REFERENCES journal(seq),
  reversed_by INTEGER NOT NULL REFERENCES journal(seq)
) STRICT;
CREATE TABLE leg(
  seq INTEGER NOT NULL REFERENCES journal(seq),
  number INTEGER NOT NULL,
  since_head INTEGER NOT NULL,
  until_head INTEGER CHECK(until_head > since_head),
  occurred INTEGER NOT NULL,
  cause INTEGER NOT NULL,
  source INTEGER NOT NULL REFERENCES subject(id),
  target INTEGER NOT NULL REFERENCES subject(id) CHECK(target <> source),
  total INTEGER NOT NULL CHECK(total > 0),
  source_total INTEGER NOT NULL CHECK(source_total >= 0),
  target_total INTEGER NOT NULL CHECK(target_total >= 0),
  moved TEXT NOT NULL,
  source_before TEXT NOT NULL,
  target_before TEXT NOT NULL,
  PRIMARY KEY(seq, number, since_head)
) STRICT, WITHOUT ROWID;
)sql" TAREBOOK_LEG_ORDERS R"sql(CREATE TABLE cylinder(
  serial TEXT PRIMARY KEY,
  specification TEXT NOT NULL,
  water_capacity INTEGER NOT NULL,
  tare INTEGER NOT NULL,
  net INTEGER NOT NULL,
  content TEXT NOT NULL,
  owner TEXT NOT NULL,
  condition TEXT NOT NULL,
  holder TEXT NOT NULL,
  job TEXT NOT NULL,
  place TEXT NOT NULL,
  out_since INTEGER NOT NULL,
  due TEXT NOT NULL,
  net_limit INTEGER NOT NULL,
  severity INTEGER NOT NULL,
  finding TEXT NOT NULL,
  search TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX cylinder_by_due ON cylinder(due);
CREATE INDEX cylinder_out ON cylinder(out_since) WHERE out_since <> 0;
CREATE TABLE cylinder_state(
  serial TEXT PRIMARY KEY,
  state TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE record(
  kind TEXT NOT NULL,
  key TEXT NOT NULL,
  body TEXT NOT NULL,
  seq INTEGER NOT NULL,
  PRIMARY KEY(kind, key)
) STRICT, WITHOUT ROWID;
CREATE TABLE finding(
  subject TEXT NOT NULL,
  number INTEGER NOT NULL,
  rule TEXT NOT NULL,
  severity INTEGER NOT NULL,
  headline TEXT NOT NULL,
  json TEXT NOT NULL,
  since INTEGER NOT NULL,
  PRIMARY KEY(subject, number)
) STRICT, WITHOUT ROWID;
)sql";

} // namespace tarebook
