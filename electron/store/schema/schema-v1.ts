/** The first released schema, as SQL; append-only: a change to the tables is a new migration, never a change here. */

/**
 * Why the tables look as they do: those that must not change are WITHOUT ROWID and have triggers before insert as well,
 * since `INSERT OR REPLACE` removes the old row without firing a delete trigger. Orders come from counters (`touched`,
 * `revision`), never from the clock. Every row carries a checksum over its other columns, since SQLite's own checks
 * do not notice a changed value. `document` stands last so that lists do not read through it.
 */
export const SCHEMA_V1 = `
CREATE TABLE headers (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  state TEXT NOT NULL CHECK (state IN ('open', 'finished')),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  touched INTEGER NOT NULL CHECK (touched >= 1),
  primary_count INTEGER NOT NULL CHECK (primary_count >= 0),
  piece_count INTEGER NOT NULL CHECK (piece_count >= 0),
  changed_at TEXT NOT NULL CHECK (length(changed_at) <= 40),
  checksum INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (length(document) > 1)
) STRICT, WITHOUT ROWID;
CREATE INDEX headers_by_touched ON headers (touched);

CREATE TABLE bases (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id) DEFERRABLE INITIALLY DEFERRED,
  checksum INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (length(document) > 1)
) STRICT, WITHOUT ROWID;

CREATE TABLE edits (
  header_id TEXT NOT NULL REFERENCES headers (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  step_id TEXT NOT NULL UNIQUE CHECK (length(step_id) BETWEEN 8 AND 64),
  action TEXT NOT NULL CHECK (action IN ('do', 'undo', 'redo')),
  of_revision INTEGER CHECK ((of_revision IS NULL) = (action = 'do') AND of_revision < revision),
  label TEXT NOT NULL,
  edit TEXT NOT NULL CHECK (json_valid(edit)),
  inverse TEXT NOT NULL CHECK (json_valid(inverse)),
  checksum INTEGER NOT NULL,
  PRIMARY KEY (header_id, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE archive (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id),
  name TEXT NOT NULL,
  note TEXT NOT NULL,
  finished_at TEXT NOT NULL CHECK (length(finished_at) <= 40),
  display TEXT NOT NULL CHECK (json_valid(display)),
  material TEXT NOT NULL,
  od_mm REAL NOT NULL CHECK (od_mm BETWEEN 0 AND 1e9),
  target_mm REAL NOT NULL CHECK (target_mm BETWEEN 0 AND 1e9),
  mean_mm REAL NOT NULL CHECK (mean_mm BETWEEN -1e9 AND 1e9),
  spread_mm REAL NOT NULL CHECK (spread_mm BETWEEN 0 AND 1e9),
  primary_count INTEGER NOT NULL CHECK (primary_count >= 0),
  words TEXT NOT NULL,
  primaries TEXT NOT NULL CHECK (json_valid(primaries)),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE bin (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id),
  binned_at TEXT NOT NULL CHECK (length(binned_at) <= 40),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE drafts (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id),
  field TEXT NOT NULL CHECK (length(field) <= 200),
  text TEXT NOT NULL CHECK (length(text) <= 400),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE stock (
  place INTEGER NOT NULL PRIMARY KEY,
  id TEXT NOT NULL UNIQUE CHECK (length(id) BETWEEN 1 AND 64),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  item TEXT NOT NULL CHECK (json_valid(item)),
  checksum INTEGER NOT NULL
) STRICT;

CREATE TABLE preferences (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  theme TEXT NOT NULL CHECK (theme IN ('system', 'light', 'dark')),
  density TEXT NOT NULL CHECK (density IN ('bench', 'desk')),
  last_header_id TEXT,
  checksum INTEGER NOT NULL
) STRICT;

CREATE TABLE upkeep (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  opened INTEGER NOT NULL CHECK (opened >= 0),
  full_check_at TEXT NOT NULL CHECK (length(full_check_at) <= 40),
  checksum INTEGER NOT NULL
) STRICT;

CREATE TRIGGER headers_finished_no_update BEFORE UPDATE ON headers WHEN OLD.state = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change'); END;
CREATE TRIGGER headers_update_in_step BEFORE UPDATE ON headers WHEN NEW.id <> OLD.id OR NEW.revision <= OLD.revision
BEGIN SELECT RAISE(ABORT, 'a header keeps its id, and its revision grows'); END;
CREATE TRIGGER headers_no_delete BEFORE DELETE ON headers
BEGIN SELECT RAISE(ABORT, 'headers are never deleted'); END;
CREATE TRIGGER headers_no_replace BEFORE INSERT ON headers WHEN EXISTS (SELECT 1 FROM headers WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a header is never replaced'); END;

CREATE TRIGGER bases_no_update BEFORE UPDATE ON bases
BEGIN SELECT RAISE(ABORT, 'the first document of a header is kept'); END;
CREATE TRIGGER bases_no_delete BEFORE DELETE ON bases
BEGIN SELECT RAISE(ABORT, 'the first document of a header is kept'); END;
CREATE TRIGGER bases_no_replace BEFORE INSERT ON bases WHEN EXISTS (SELECT 1 FROM bases WHERE header_id = NEW.header_id)
BEGIN SELECT RAISE(ABORT, 'the first document of a header is kept'); END;

CREATE TRIGGER edits_no_update BEFORE UPDATE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_no_delete BEFORE DELETE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_only_append BEFORE INSERT ON edits
WHEN NEW.revision <= (SELECT revision FROM headers WHERE id = NEW.header_id)
  OR EXISTS (SELECT 1 FROM edits WHERE header_id = NEW.header_id AND revision = NEW.revision)
  OR EXISTS (SELECT 1 FROM edits WHERE step_id = NEW.step_id)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_not_when_finished BEFORE INSERT ON edits
WHEN (SELECT state FROM headers WHERE id = NEW.header_id) = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change'); END;

CREATE TRIGGER archive_no_update BEFORE UPDATE ON archive
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;
CREATE TRIGGER archive_no_delete BEFORE DELETE ON archive
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;
CREATE TRIGGER archive_no_replace BEFORE INSERT ON archive
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id = NEW.header_id)
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;
`;
