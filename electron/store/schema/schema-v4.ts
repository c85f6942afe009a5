/** From version 3 to 4: the journal is kept in the order in which it is read; append-only like every migration. */

import type Database from 'better-sqlite3';
import { DamagedRow } from '../file/faults.ts';
import { checksumOf } from '../rows/checksums.ts';

/** A header's first place in the journal is its number times this; revisions follow. Places fit a JavaScript number. */
export const PLACES_PER_HEADER = 2 ** 32;

/**
 * The rows of the journal were found through an index of headers and revisions, and every step wrote a page of it. Now
 * each header has a number, the number and the revision make a step's place, and the place is the key of the table itself.
 * Numbers count up, so that the newest header has the end of the table, where rows are put at the least cost. And what
 * every step must pass is one trigger a table.
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
  changed_at TEXT NOT NULL CHECK (length(changed_at) <= 40),
  frame_revision INTEGER NOT NULL CHECK (frame_revision BETWEEN 0 AND revision),
  checksum INTEGER NOT NULL,
  primaries TEXT NOT NULL CHECK (length(primaries) > 1)
) STRICT, WITHOUT ROWID;

CREATE TABLE new_edits (
  place INTEGER NOT NULL PRIMARY KEY CHECK (place & 4294967295 = revision),
  header_id TEXT NOT NULL REFERENCES headers (id),
  revision INTEGER NOT NULL CHECK (revision BETWEEN 1 AND 4294967295),
  step_id TEXT NOT NULL UNIQUE CHECK (length(step_id) BETWEEN 8 AND 64),
  action TEXT NOT NULL CHECK (action IN ('do', 'undo', 'redo')),
  of_revision INTEGER CHECK ((of_revision IS NULL) = (action = 'do') AND of_revision < revision),
  label TEXT NOT NULL,
  edit TEXT NOT NULL CHECK (json_valid(edit)),
  inverse TEXT NOT NULL CHECK (json_valid(inverse)),
  checksum INTEGER NOT NULL
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
    WHERE id = NEW.header_id AND state = 'open' AND revision < NEW.revision AND number = NEW.place >> 32)
  OR EXISTS (SELECT 1 FROM edits WHERE place = NEW.place)
  OR EXISTS (SELECT 1 FROM edits WHERE step_id = NEW.step_id)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only, and that of a finished header is closed'); END;
`;

/** Columns after the id, in the order in which a checksum of version 3 covers them. */
const KEPT_COLUMNS = [
  'name',
  'state',
  'revision',
  'touched',
  'primary_count',
  'piece_count',
  'changed_at',
  'frame_revision',
] as const;

type Cell = string | number | null;
type OldHeader = Readonly<Record<(typeof KEPT_COLUMNS)[number], string | number>> & {
  readonly id: string;
  readonly checksum: number;
  readonly primaries: string;
};
/** The cells of a step in the order of its columns, which is that of its checksum; the checksum comes last. */
type OldEdit = [headerId: string, revision: number, ...rest: Cell[], checksum: number];

/**
 * Numbers the headers, the one touched last at the end, and keys the journal by place. Tables are rebuilt, so foreign keys
 * must be off. Throws DamagedRow where a row is not as version 3 wrote it: a checksum made anew would hide that for good.
 */
export function placeSteps(db: Database.Database): void {
  db.exec(NEW_TABLES);
  const putHeader = db.prepare('INSERT INTO new_headers VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  const steps = db.prepare<[string], OldEdit>('SELECT * FROM edits WHERE header_id = ? ORDER BY revision').raw();
  const putStep = db.prepare('INSERT INTO new_edits VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  const headers = db.prepare<[], OldHeader>('SELECT * FROM headers ORDER BY touched, id').all();
  for (const [index, row] of headers.entries()) {
    const { id, checksum, primaries } = row;
    const number = index + 1;
    const cells = KEPT_COLUMNS.map((column) => row[column]);
    const isIntact = checksum === checksumOf('headers', [id, ...cells, primaries]);
    if (!isIntact) throw new DamagedRow(`header ${id} does not match its checksum`);
    putHeader.run(id, number, ...cells, checksumOf('headers', [id, number, ...cells, primaries]), primaries);
    for (const step of steps.all(id)) {
      const [, revision] = step;
      const own = step.slice(0, -1) as Cell[];
      // The first databases hold their checksums unsigned.
      const isStepIntact = (Number(step.at(-1)) | 0) === checksumOf('edits', own);
      if (!isStepIntact) throw new DamagedRow(`revision ${revision} of header ${id} does not match its checksum`);
      const placed = [number * PLACES_PER_HEADER + revision, ...own];
      putStep.run(...placed, checksumOf('edits', placed));
    }
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
