/** From version 2 to 3: a row for the header without its primaries; append-only like every migration. */

import type Database from 'better-sqlite3';
import { DamagedRow } from '../file/faults.ts';
import { checksumOf } from '../rows/checksums.ts';

/**
 * Every step writes a header's own row and looks it up several times, in triggers and references too. SQLite compares
 * the rows of such a table whole, so one that reaches beyond a page is read from the disk each time. What seldom changes
 * and is long, the header without its primaries, has a row of its own in `frames`; `headers.frame_revision` names the
 * revision that wrote it last, as `headers.primaries` does for each primary.
 */
const NEW_TABLES = `
CREATE TABLE new_headers (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  state TEXT NOT NULL CHECK (state IN ('open', 'finished')),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  touched INTEGER NOT NULL CHECK (touched >= 1),
  primary_count INTEGER NOT NULL CHECK (primary_count >= 0),
  piece_count INTEGER NOT NULL CHECK (piece_count >= 0),
  changed_at TEXT NOT NULL CHECK (length(changed_at) <= 40),
  frame_revision INTEGER NOT NULL CHECK (frame_revision BETWEEN 0 AND revision),
  checksum INTEGER NOT NULL,
  primaries TEXT NOT NULL CHECK (length(primaries) > 1)
) STRICT, WITHOUT ROWID;

CREATE TABLE frames (
  header_id TEXT NOT NULL PRIMARY KEY REFERENCES headers (id),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  checksum INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (length(document) > 1)
) STRICT;
`;

const IN_THEIR_PLACE = `
DROP TABLE headers;
ALTER TABLE new_headers RENAME TO headers;

CREATE INDEX headers_by_touched ON headers (touched);

CREATE TRIGGER headers_finished_no_update BEFORE UPDATE ON headers WHEN OLD.state = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change'); END;
CREATE TRIGGER headers_update_in_step BEFORE UPDATE ON headers WHEN NEW.id <> OLD.id OR NEW.revision <= OLD.revision
BEGIN SELECT RAISE(ABORT, 'a header keeps its id, and its revision grows'); END;
CREATE TRIGGER headers_no_delete BEFORE DELETE ON headers
BEGIN SELECT RAISE(ABORT, 'headers are never deleted'); END;
CREATE TRIGGER headers_no_replace BEFORE INSERT ON headers WHEN EXISTS (SELECT 1 FROM headers WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a header is never replaced'); END;

CREATE TRIGGER frames_no_insert BEFORE INSERT ON frames
WHEN (SELECT state FROM headers WHERE id = NEW.header_id) = 'finished'
  OR EXISTS (SELECT 1 FROM frames WHERE header_id = NEW.header_id)
  OR EXISTS (SELECT 1 FROM frames WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a frame is never replaced'); END;
CREATE TRIGGER frames_no_update BEFORE UPDATE ON frames
WHEN (SELECT state FROM headers WHERE id = OLD.header_id) = 'finished'
  OR NEW.header_id <> OLD.header_id OR NEW.rowid <> OLD.rowid
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a frame keeps its header'); END;
CREATE TRIGGER frames_no_delete BEFORE DELETE ON frames
BEGIN SELECT RAISE(ABORT, 'a header keeps its frame'); END;
`;

/** Columns before the list of primaries, in the order in which a checksum of version 2 covers them. */
const KEPT_COLUMNS = [
  'id',
  'name',
  'state',
  'revision',
  'touched',
  'primary_count',
  'piece_count',
  'changed_at',
] as const;

type OldRow = Readonly<Record<(typeof KEPT_COLUMNS)[number], string | number>> & {
  readonly id: string;
  readonly revision: number;
  readonly checksum: number;
  readonly primaries: string;
  readonly document: string;
};

/**
 * Takes the frames out of the headers' rows. A table is rebuilt, so foreign keys must be off. Throws DamagedRow where a
 * row is not as version 2 wrote it: a checksum made anew would hide that for good.
 */
export function separateFrames(db: Database.Database): void {
  db.exec(NEW_TABLES);
  const putHeader = db.prepare('INSERT INTO new_headers VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  const putFrame = db.prepare('INSERT INTO frames VALUES (?, ?, ?, ?)');
  for (const row of db.prepare<[], OldRow>('SELECT * FROM headers').all()) {
    const { id, revision, primaries, document } = row;
    const cells = KEPT_COLUMNS.map((column) => row[column]);
    const found = checksumOf('headers', [...cells, primaries, document]);
    if (row.checksum !== found) throw new DamagedRow(`header ${id} does not match its checksum`);
    putFrame.run(id, revision, checksumOf('frames', [id, revision, document]), document);
    putHeader.run(...cells, revision, checksumOf('headers', [...cells, revision, primaries]), primaries);
  }
  const counts = db.prepare('SELECT (SELECT count(*) FROM headers) = (SELECT count(*) FROM new_headers)').pluck();
  if (counts.get() !== 1) throw new Error('the migration lost rows of headers');
  // Other tables' triggers name the table that is gone for a moment; they are meant for the one that takes its place.
  db.pragma('legacy_alter_table = ON');
  db.exec(IN_THEIR_PLACE);
  db.pragma('legacy_alter_table = OFF');
}
