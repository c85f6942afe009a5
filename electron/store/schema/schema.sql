CREATE TABLE archive (
  place INTEGER NOT NULL PRIMARY KEY CHECK (place >= 1),
  header_id TEXT NOT NULL UNIQUE REFERENCES headers (id),
  words TEXT NOT NULL,
  material TEXT NOT NULL,
  od_mm REAL NOT NULL CHECK (od_mm BETWEEN 0 AND 1e9),
  wall_mm REAL NOT NULL CHECK (wall_mm BETWEEN 0 AND 1e9),
  primary_count INTEGER NOT NULL CHECK (primary_count >= 0),
  target_mm REAL NOT NULL CHECK (target_mm BETWEEN 0 AND 1e9),
  spread_mm REAL NOT NULL CHECK (spread_mm BETWEEN 0 AND 1e9),
  finished_at INTEGER NOT NULL CHECK (abs(finished_at) <= 8640000000000000),
  figures TEXT NOT NULL CHECK (json_valid(figures)),
  plans TEXT NOT NULL CHECK (json_valid(plans)),
  seal TEXT NOT NULL CHECK (length(seal) = 64),
  checksum INTEGER NOT NULL
) STRICT;

CREATE INDEX archive_by_seal ON archive (seal);

CREATE INDEX archive_to_search ON archive (
  place, header_id, words, material, od_mm, wall_mm, primary_count, target_mm, spread_mm, finished_at
);

CREATE TABLE bin (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id),
  binned_at TEXT NOT NULL CHECK (length(binned_at) <= 40),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE cut_plans (
  step INTEGER NOT NULL REFERENCES shelf_steps (place),
  header_id TEXT NOT NULL REFERENCES headers (id),
  document TEXT NOT NULL CHECK (json_valid(document)),
  checksum INTEGER NOT NULL,
  PRIMARY KEY (step, header_id)
) STRICT;

CREATE INDEX cut_plans_by_header ON cut_plans (header_id);

CREATE TABLE drafts (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id),
  field TEXT NOT NULL CHECK (length(field) <= 200),
  text TEXT NOT NULL CHECK (length(text) <= 400),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE headers (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE journal (
  place INTEGER NOT NULL PRIMARY KEY CHECK (place >= 1),
  header_id TEXT NOT NULL REFERENCES headers (id),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  step_id TEXT NOT NULL CHECK (length(step_id) BETWEEN 8 AND 64),
  action TEXT NOT NULL CHECK (action IN ('make', 'do', 'undo', 'redo')),
  of_revision INTEGER CHECK (of_revision BETWEEN 1 AND revision - 1),
  undo_next INTEGER CHECK (undo_next BETWEEN 1 AND revision),
  redo_next INTEGER CHECK (redo_next BETWEEN 1 AND revision),
  label TEXT NOT NULL,
  edit TEXT NOT NULL CHECK (json_valid(edit)),
  inverse TEXT NOT NULL CHECK (json_valid(inverse)),
  changed_at INTEGER NOT NULL CHECK (abs(changed_at) <= 8640000000000000),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  state TEXT NOT NULL CHECK (state IN ('open', 'finished')),
  primary_count INTEGER NOT NULL CHECK (primary_count >= 0),
  piece_count INTEGER NOT NULL CHECK (piece_count >= 0),
  before INTEGER NOT NULL,
  checksum INTEGER NOT NULL,
  UNIQUE (header_id, revision),
  CHECK ((action = 'make') = (revision = 0)),
  CHECK ((action IN ('undo', 'redo')) = (of_revision IS NOT NULL))
) STRICT;

CREATE TABLE movements (
  place INTEGER NOT NULL PRIMARY KEY CHECK (place >= 1),
  item_id TEXT NOT NULL REFERENCES stock (id),
  request_id TEXT NOT NULL REFERENCES shelf_steps (id),
  pieces INTEGER NOT NULL CHECK (pieces <> 0),
  reason TEXT NOT NULL CHECK (reason IN ('received', 'cut', 'scrapped', 'counted', 'takenBack')),
  moved_at INTEGER NOT NULL CHECK (abs(moved_at) <= 8640000000000000),
  checksum INTEGER NOT NULL
) STRICT;

CREATE INDEX movements_by_item ON movements (item_id);

CREATE TABLE picture_bytes (
  header_id TEXT NOT NULL,
  id TEXT NOT NULL,
  bytes BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 700000),
  checksum INTEGER NOT NULL,
  PRIMARY KEY (header_id, id),
  FOREIGN KEY (header_id, id) REFERENCES pictures (header_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE pictures (
  header_id TEXT NOT NULL REFERENCES headers (id),
  id TEXT NOT NULL CHECK (length(id) BETWEEN 1 AND 64),
  place INTEGER NOT NULL CHECK (place >= 1),
  caption TEXT NOT NULL CHECK (length(caption) <= 120),
  media_type TEXT NOT NULL CHECK (media_type IN ('image/jpeg', 'image/png')),
  width_px INTEGER NOT NULL CHECK (width_px BETWEEN 1 AND 1600),
  height_px INTEGER NOT NULL CHECK (height_px BETWEEN 1 AND 1600),
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
  checksum INTEGER NOT NULL,
  PRIMARY KEY (header_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE requests (
  place INTEGER NOT NULL PRIMARY KEY,
  id TEXT NOT NULL UNIQUE CHECK (length(id) BETWEEN 8 AND 64),
  asked INTEGER NOT NULL,
  answer TEXT NOT NULL CHECK (json_valid(answer)),
  checksum INTEGER NOT NULL
) STRICT;

CREATE TABLE settings (
  name TEXT NOT NULL PRIMARY KEY CHECK (length(name) BETWEEN 1 AND 40),
  value TEXT NOT NULL CHECK (json_valid(value) AND length(value) <= 4000),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE shelf_steps (
  place INTEGER NOT NULL PRIMARY KEY CHECK (place >= 1),
  id TEXT NOT NULL UNIQUE CHECK (length(id) BETWEEN 8 AND 64),
  action TEXT NOT NULL CHECK (action IN ('do', 'undo', 'redo')),
  of_place INTEGER CHECK (of_place BETWEEN 1 AND place - 1),
  label TEXT NOT NULL,
  touched TEXT NOT NULL CHECK (json_valid(touched)),
  first_movement INTEGER NOT NULL CHECK (first_movement >= 1),
  movement_count INTEGER NOT NULL CHECK (movement_count >= 0),
  made_at INTEGER NOT NULL CHECK (abs(made_at) <= 8640000000000000),
  checksum INTEGER NOT NULL,
  CHECK ((action = 'do') = (of_place IS NULL))
) STRICT;

CREATE INDEX shelf_steps_by_of ON shelf_steps (of_place) WHERE of_place IS NOT NULL;

CREATE TABLE snapshots (
  header_id TEXT NOT NULL REFERENCES headers (id),
  edit_meaning INTEGER NOT NULL CHECK (edit_meaning >= 1),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  chain INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (json_valid(document)),
  checksum INTEGER NOT NULL,
  PRIMARY KEY (header_id, edit_meaning, revision)
) STRICT;

CREATE TABLE stock (
  place INTEGER NOT NULL PRIMARY KEY CHECK (place >= 1),
  id TEXT NOT NULL UNIQUE CHECK (length(id) BETWEEN 1 AND 64),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  step INTEGER NOT NULL REFERENCES shelf_steps (place),
  is_retired INTEGER NOT NULL CHECK (is_retired IN (0, 1)),
  item TEXT NOT NULL CHECK (json_valid(item)),
  checksum INTEGER NOT NULL
) STRICT;

CREATE INDEX stock_by_step ON stock (step);

CREATE TRIGGER archive_no_delete BEFORE DELETE ON archive
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;

CREATE TRIGGER archive_no_replace BEFORE INSERT ON archive
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id = NEW.header_id OR place >= NEW.place)
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;

CREATE TRIGGER archive_no_update BEFORE UPDATE ON archive
BEGIN SELECT RAISE(ABORT, 'the archive keeps what was finished'); END;

CREATE TRIGGER cut_plans_no_delete BEFORE DELETE ON cut_plans
BEGIN SELECT RAISE(ABORT, 'a plan that was carried out is kept'); END;

CREATE TRIGGER cut_plans_no_update BEFORE UPDATE ON cut_plans
BEGIN SELECT RAISE(ABORT, 'a plan that was carried out is kept'); END;

CREATE TRIGGER cut_plans_only_append BEFORE INSERT ON cut_plans
WHEN NEW.step < (SELECT max(step) FROM cut_plans)
  OR EXISTS (SELECT 1 FROM cut_plans WHERE step = NEW.step AND header_id = NEW.header_id)
BEGIN SELECT RAISE(ABORT, 'a plan that was carried out is kept'); END;

CREATE TRIGGER headers_no_delete BEFORE DELETE ON headers
BEGIN SELECT RAISE(ABORT, 'headers are kept'); END;

CREATE TRIGGER headers_no_replace BEFORE INSERT ON headers WHEN EXISTS (SELECT 1 FROM headers WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'headers are kept'); END;

CREATE TRIGGER headers_no_update BEFORE UPDATE ON headers
BEGIN SELECT RAISE(ABORT, 'headers are kept'); END;

CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER journal_only_append BEFORE INSERT ON journal
WHEN NEW.place <= (SELECT max(place) FROM journal)
  OR EXISTS (SELECT 1 FROM journal WHERE header_id = NEW.header_id AND revision >= NEW.revision)
  OR NEW.revision > 0 AND NOT EXISTS (SELECT 1 FROM journal WHERE header_id = NEW.header_id
    AND revision = NEW.revision - 1 AND checksum = NEW.before AND state = 'open')
BEGIN SELECT RAISE(ABORT, 'the journal is append-only, and that of a finished header is closed'); END;

CREATE TRIGGER movements_no_delete BEFORE DELETE ON movements
BEGIN SELECT RAISE(ABORT, 'the stock book is append-only'); END;

CREATE TRIGGER movements_no_update BEFORE UPDATE ON movements
BEGIN SELECT RAISE(ABORT, 'the stock book is append-only'); END;

CREATE TRIGGER movements_only_append BEFORE INSERT ON movements
WHEN NEW.place <= (SELECT max(place) FROM movements)
BEGIN SELECT RAISE(ABORT, 'the stock book is append-only'); END;

CREATE TRIGGER picture_bytes_no_delete BEFORE DELETE ON picture_bytes
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id = OLD.header_id)
BEGIN SELECT RAISE(ABORT, 'pictures of a finished header are kept'); END;

CREATE TRIGGER picture_bytes_no_insert BEFORE INSERT ON picture_bytes
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id = NEW.header_id)
BEGIN SELECT RAISE(ABORT, 'pictures of a finished header are kept'); END;

CREATE TRIGGER picture_bytes_no_update BEFORE UPDATE ON picture_bytes
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id IN (OLD.header_id, NEW.header_id))
BEGIN SELECT RAISE(ABORT, 'pictures of a finished header are kept'); END;

CREATE TRIGGER pictures_at_most_12 BEFORE INSERT ON pictures
WHEN (SELECT count(*) FROM pictures WHERE header_id = NEW.header_id) >= 12
BEGIN SELECT RAISE(ABORT, 'a header has at most 12 pictures'); END;

CREATE TRIGGER pictures_no_delete BEFORE DELETE ON pictures
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id = OLD.header_id)
BEGIN SELECT RAISE(ABORT, 'pictures of a finished header are kept'); END;

CREATE TRIGGER pictures_no_insert BEFORE INSERT ON pictures
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id = NEW.header_id)
BEGIN SELECT RAISE(ABORT, 'pictures of a finished header are kept'); END;

CREATE TRIGGER pictures_no_update BEFORE UPDATE ON pictures
WHEN EXISTS (SELECT 1 FROM archive WHERE header_id IN (OLD.header_id, NEW.header_id))
BEGIN SELECT RAISE(ABORT, 'pictures of a finished header are kept'); END;

CREATE TRIGGER shelf_steps_no_delete BEFORE DELETE ON shelf_steps
BEGIN SELECT RAISE(ABORT, 'the stock book is append-only'); END;

CREATE TRIGGER shelf_steps_no_update BEFORE UPDATE ON shelf_steps
BEGIN SELECT RAISE(ABORT, 'the stock book is append-only'); END;

CREATE TRIGGER shelf_steps_only_append BEFORE INSERT ON shelf_steps
WHEN NEW.place <= (SELECT max(place) FROM shelf_steps)
BEGIN SELECT RAISE(ABORT, 'the stock book is append-only'); END;

CREATE TRIGGER snapshots_no_delete BEFORE DELETE ON snapshots
BEGIN SELECT RAISE(ABORT, 'snapshots are kept'); END;

CREATE TRIGGER snapshots_no_update BEFORE UPDATE ON snapshots
BEGIN SELECT RAISE(ABORT, 'snapshots are kept'); END;

CREATE TRIGGER snapshots_only_append BEFORE INSERT ON snapshots
WHEN EXISTS (SELECT 1 FROM snapshots WHERE header_id = NEW.header_id
    AND (edit_meaning > NEW.edit_meaning OR edit_meaning = NEW.edit_meaning AND revision >= NEW.revision))
  OR EXISTS (SELECT 1 FROM snapshots WHERE rowid = NEW.rowid)
  OR NOT EXISTS (SELECT 1 FROM journal WHERE header_id = NEW.header_id AND revision = NEW.revision
    AND checksum = NEW.chain)
BEGIN SELECT RAISE(ABORT, 'a snapshot is of a step, and none is replaced'); END;

CREATE TRIGGER stock_no_delete BEFORE DELETE ON stock
BEGIN SELECT RAISE(ABORT, 'a row of stock is retired, not deleted'); END;
