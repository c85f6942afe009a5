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

CREATE TABLE bases (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id) DEFERRABLE INITIALLY DEFERRED,
  checksum INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (length(document) > 1)
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

CREATE TABLE "edits" (
  place INTEGER NOT NULL PRIMARY KEY CHECK (place & 4294967295 >= 1),
  number INTEGER NOT NULL AS (place >> 32) REFERENCES headers (number),
  revision INTEGER NOT NULL AS (place & 4294967295),
  step_id TEXT NOT NULL UNIQUE CHECK (length(step_id) BETWEEN 8 AND 64),
  action TEXT NOT NULL CHECK (action IN ('do', 'undo', 'redo')),
  of_revision INTEGER CHECK ((of_revision IS NULL) = (action = 'do') AND of_revision < place & 4294967295),
  label TEXT NOT NULL,
  edit TEXT NOT NULL CHECK (json_valid(edit)),
  inverse TEXT NOT NULL CHECK (json_valid(inverse)),
  changed_at INTEGER CHECK (abs(changed_at) <= 8640000000000000),
  piece_count INTEGER CHECK (piece_count >= 0),
  row_revisions TEXT CHECK (json_valid(row_revisions)),
  checksum INTEGER NOT NULL,
  CHECK ((changed_at IS NULL) = (row_revisions IS NULL) AND (piece_count IS NULL) = (row_revisions IS NULL))
) STRICT;

CREATE TABLE frames (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  checksum INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (length(document) > 1)
) STRICT;

CREATE TABLE "headers" (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
  number INTEGER NOT NULL UNIQUE CHECK (number BETWEEN 1 AND 2097151),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  state TEXT NOT NULL CHECK (state IN ('open', 'finished')),
  revision INTEGER NOT NULL CHECK (revision BETWEEN 0 AND 4294967295),
  touched INTEGER NOT NULL CHECK (touched >= 1),
  primary_count INTEGER NOT NULL CHECK (primary_count >= 0),
  piece_count INTEGER NOT NULL CHECK (piece_count >= 0),
  changed_at INTEGER NOT NULL CHECK (abs(changed_at) <= 8640000000000000),
  checksum INTEGER NOT NULL,
  primaries TEXT NOT NULL CHECK (json_valid(primaries))
) STRICT, WITHOUT ROWID;

CREATE INDEX headers_by_touched ON headers (touched);

CREATE TABLE preferences (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  theme TEXT NOT NULL CHECK (theme IN ('system', 'light', 'dark')),
  density TEXT NOT NULL CHECK (density IN ('bench', 'desk')),
  last_header_id TEXT,
  checksum INTEGER NOT NULL
) STRICT;

CREATE TABLE primaries (
  header_id TEXT NOT NULL REFERENCES headers (id),
  id TEXT NOT NULL CHECK (length(id) BETWEEN 1 AND 64),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  checksum INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (length(document) > 1),
  PRIMARY KEY (header_id, id)
) STRICT;

CREATE TABLE stock (
  place INTEGER NOT NULL PRIMARY KEY,
  id TEXT NOT NULL UNIQUE CHECK (length(id) BETWEEN 1 AND 64),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  item TEXT NOT NULL CHECK (json_valid(item)),
  checksum INTEGER NOT NULL
) STRICT;

CREATE TABLE upkeep (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  opened INTEGER NOT NULL CHECK (opened >= 0),
  full_check_at TEXT NOT NULL CHECK (length(full_check_at) <= 40),
  checksum INTEGER NOT NULL
) STRICT;

CREATE TRIGGER archive_no_delete BEFORE DELETE ON archive
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;

CREATE TRIGGER archive_no_replace BEFORE INSERT ON archive
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id = NEW.header_id)
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;

CREATE TRIGGER archive_no_update BEFORE UPDATE ON archive
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;

CREATE TRIGGER bases_no_delete BEFORE DELETE ON bases
BEGIN SELECT RAISE(ABORT, 'the first document of a header is kept'); END;

CREATE TRIGGER bases_no_replace BEFORE INSERT ON bases WHEN EXISTS (SELECT 1 FROM bases WHERE header_id = NEW.header_id)
BEGIN SELECT RAISE(ABORT, 'the first document of a header is kept'); END;

CREATE TRIGGER bases_no_update BEFORE UPDATE ON bases
BEGIN SELECT RAISE(ABORT, 'the first document of a header is kept'); END;

CREATE TRIGGER edits_no_delete BEFORE DELETE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER edits_no_update BEFORE UPDATE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER edits_only_append BEFORE INSERT ON edits
WHEN NOT EXISTS (SELECT 1 FROM headers
    WHERE number = NEW.place >> 32 AND state = 'open' AND revision < NEW.place & 4294967295)
  OR NEW.place <> 1 + (SELECT coalesce(max(place), NEW.place >> 32 << 32) FROM edits
    WHERE place BETWEEN NEW.place >> 32 << 32 AND NEW.place)
  OR EXISTS (SELECT 1 FROM edits WHERE step_id = NEW.step_id)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only, and that of a finished header is closed'); END;

CREATE TRIGGER frames_no_delete BEFORE DELETE ON frames
BEGIN SELECT RAISE(ABORT, 'a header keeps its frame'); END;

CREATE TRIGGER frames_no_insert BEFORE INSERT ON frames
WHEN (SELECT state FROM headers WHERE id = NEW.header_id) = 'finished'
  OR EXISTS (SELECT 1 FROM frames WHERE header_id = NEW.header_id)
  OR EXISTS (SELECT 1 FROM frames WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a frame is never replaced'); END;

CREATE TRIGGER frames_no_update BEFORE UPDATE ON frames
WHEN (SELECT state FROM headers WHERE id = OLD.header_id) = 'finished'
  OR NEW.header_id <> OLD.header_id OR NEW.rowid <> OLD.rowid
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a frame keeps its header'); END;

CREATE TRIGGER headers_no_delete BEFORE DELETE ON headers
BEGIN SELECT RAISE(ABORT, 'headers are never deleted'); END;

CREATE TRIGGER headers_no_replace BEFORE INSERT ON headers
WHEN EXISTS (SELECT 1 FROM headers WHERE id = NEW.id) OR EXISTS (SELECT 1 FROM headers WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'a header is never replaced'); END;

CREATE TRIGGER headers_update_in_step BEFORE UPDATE ON headers
WHEN OLD.state = 'finished' OR NEW.revision <= OLD.revision OR NEW.id <> OLD.id OR NEW.number <> OLD.number
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change; any keeps its id and number, and its revision grows'); END;

CREATE TRIGGER primaries_no_delete BEFORE DELETE ON primaries
WHEN (SELECT state FROM headers WHERE id = OLD.header_id) = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change'); END;

CREATE TRIGGER primaries_no_insert BEFORE INSERT ON primaries
WHEN (SELECT state FROM headers WHERE id = NEW.header_id) = 'finished'
  OR EXISTS (SELECT 1 FROM primaries WHERE header_id = NEW.header_id AND id = NEW.id)
  OR EXISTS (SELECT 1 FROM primaries WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a primary is never replaced'); END;

CREATE TRIGGER primaries_no_update BEFORE UPDATE ON primaries
WHEN (SELECT state FROM headers WHERE id = OLD.header_id) = 'finished'
  OR NEW.header_id <> OLD.header_id OR NEW.id <> OLD.id OR NEW.rowid <> OLD.rowid
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a primary keeps its id'); END;
