/** From version 4 to 5: the figures of a header are in its newest step; append-only like every migration. */

import type Database from 'better-sqlite3';
import { DamagedRow } from '../file/faults.ts';
import { checksumOf } from '../rows/checksums.ts';

/**
 * Every step wrote the header's own row, for its revision and a few figures. Now a step's row in the journal carries them:
 * when the header was changed, how many pieces it has, and in `row_revisions` the revisions that wrote the header's own
 * row, its frame and each of its primaries in their order. So a step writes what it changes and its row in the journal, a
 * page less. A header without a step has them in its own row, where they are those of that row's revision. Steps of
 * earlier versions have none, save the newest of each header. Header and revision follow from a step's place. Times are
 * milliseconds since 1970 (UTC), as far as JavaScript's dates reach.
 */
const NEW_TABLES = `
CREATE TABLE new_headers (
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

CREATE TABLE new_edits (
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
`;

const IN_THEIR_PLACE = `
DROP TABLE edits;
DROP TABLE headers;
ALTER TABLE new_headers RENAME TO headers;
ALTER TABLE new_edits RENAME TO edits;

CREATE INDEX headers_by_touched ON headers (touched);

CREATE TRIGGER headers_update_in_step BEFORE UPDATE ON headers
WHEN OLD.state = 'finished' OR NEW.revision <= OLD.revision OR NEW.id <> OLD.id OR NEW.number <> OLD.number
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change; any keeps its id and number, and its revision grows'); END;
CREATE TRIGGER headers_no_delete BEFORE DELETE ON headers
BEGIN SELECT RAISE(ABORT, 'headers are never deleted'); END;
CREATE TRIGGER headers_no_replace BEFORE INSERT ON headers
WHEN EXISTS (SELECT 1 FROM headers WHERE id = NEW.id) OR EXISTS (SELECT 1 FROM headers WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'a header is never replaced'); END;

CREATE TRIGGER edits_no_update BEFORE UPDATE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_no_delete BEFORE DELETE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_only_append BEFORE INSERT ON edits
WHEN NOT EXISTS (SELECT 1 FROM headers
    WHERE number = NEW.place >> 32 AND state = 'open' AND revision < NEW.place & 4294967295)
  OR NEW.place <> 1 + (SELECT coalesce(max(place), NEW.place >> 32 << 32) FROM edits
    WHERE place BETWEEN NEW.place >> 32 << 32 AND NEW.place)
  OR EXISTS (SELECT 1 FROM edits WHERE step_id = NEW.step_id)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only, and that of a finished header is closed'); END;
`;

/** Columns that stay as they are, in the order in which the checksums of both versions cover them. */
const KEPT_COLUMNS = ['id', 'number', 'name', 'state', 'revision', 'touched', 'primary_count', 'piece_count'] as const;

type Cell = string | number | null;
type OldHeader = Readonly<Record<(typeof KEPT_COLUMNS)[number], string | number>> & {
  readonly id: string;
  readonly revision: number;
  readonly piece_count: number;
  readonly changed_at: string;
  readonly frame_revision: number;
  readonly checksum: number;
  readonly primaries: string;
};
/** The cells of a step in the order of its columns, which is that of its checksum; the checksum comes last. */
type OldEdit = [place: number, headerId: string, revision: number, ...rest: Cell[], checksum: number];

/**
 * Tables are rebuilt, so foreign keys must be off. Throws DamagedRow where a row is not as version 4 wrote it: a checksum
 * made anew would hide that for good.
 */
export function moveFiguresToSteps(db: Database.Database): void {
  db.exec(NEW_TABLES);
  const putHeader = db.prepare('INSERT INTO new_headers VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  const steps = db.prepare<[string], OldEdit>('SELECT * FROM edits WHERE header_id = ? ORDER BY place').raw();
  const putStep = db.prepare('INSERT INTO new_edits VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  for (const row of db.prepare<[], OldHeader>('SELECT * FROM headers ORDER BY number').all()) {
    const { id, revision } = row;
    const cells = KEPT_COLUMNS.map((column) => row[column]);
    const found = checksumOf('headers', [...cells, row.changed_at, row.frame_revision, row.primaries]);
    if (row.checksum !== found) throw new DamagedRow(`header ${id} does not match its checksum`);
    const listed = JSON.parse(row.primaries) as [primaryId: string, revision: number][];
    const ids = JSON.stringify(listed.map(([primaryId]) => primaryId));
    const changedAt = Date.parse(row.changed_at);
    putHeader.run(...cells, changedAt, checksumOf('headers', [...cells, changedAt, ids]), ids);
    const rowRevisions = JSON.stringify([revision, row.frame_revision, ...listed.map(([, written]) => written)]);
    const figures = [changedAt, row.piece_count, rowRevisions];
    let last = 0;
    for (const step of steps.all(id)) {
      const own = step.slice(0, -1) as [number, string, number, ...Cell[]];
      const [place, , made, ...rest] = own;
      const isIntact = step.at(-1) === checksumOf('edits', own);
      if (!isIntact) throw new DamagedRow(`revision ${made} of header ${id} does not match its checksum`);
      const placed = [place, ...rest, ...(made === revision ? figures : [null, null, null])];
      putStep.run(...placed, checksumOf('edits', placed));
      last = made;
    }
    if (last !== revision) throw new DamagedRow(`header ${id} is at revision ${revision}, its last step at ${last}`);
  }
  for (const table of ['headers', 'edits']) {
    const counts = db.prepare(`SELECT (SELECT count(*) FROM ${table}) = (SELECT count(*) FROM new_${table})`).pluck();
    if (counts.get() !== 1) throw new Error(`the migration lost rows of ${table}`);
  }
  // Other tables' triggers name the tables that are gone for a moment; they are meant for those that take their place.
  db.pragma('legacy_alter_table = ON');
  db.exec(IN_THEIR_PLACE);
  db.pragma('legacy_alter_table = OFF');
}
