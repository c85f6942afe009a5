/** From version 1 to 2: a row a primary, and a journal that is appended to; append-only like every migration. */

import type Database from 'better-sqlite3';
import { DamagedRow } from '../file/faults.ts';
import { checksumOf } from '../rows/checksums.ts';
import { jsonOf } from '../rows/read-row.ts';

/**
 * `edits` and `primaries` have a rowid because appending to such a table, or changing a row in place, brings the fewest
 * pages to the disk; their triggers before insert look at it too, for `INSERT OR REPLACE` goes by it. A primary has a row
 * of its own, so that a step writes what it changes and no more; `headers.primaries` lists their ids in order, each with
 * the revision that wrote it last, which ties the rows together. `headers.document` is the header without them.
 */
const NEW_TABLES = `
DROP TRIGGER edits_only_append;
DROP TRIGGER edits_not_when_finished;

CREATE TABLE new_headers (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  state TEXT NOT NULL CHECK (state IN ('open', 'finished')),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  touched INTEGER NOT NULL CHECK (touched >= 1),
  primary_count INTEGER NOT NULL CHECK (primary_count >= 0),
  piece_count INTEGER NOT NULL CHECK (piece_count >= 0),
  changed_at TEXT NOT NULL CHECK (length(changed_at) <= 40),
  checksum INTEGER NOT NULL,
  primaries TEXT NOT NULL CHECK (length(primaries) > 1),
  document TEXT NOT NULL CHECK (length(document) > 1)
) STRICT, WITHOUT ROWID;

CREATE TABLE primaries (
  header_id TEXT NOT NULL REFERENCES headers (id),
  id TEXT NOT NULL CHECK (length(id) BETWEEN 1 AND 64),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  checksum INTEGER NOT NULL,
  document TEXT NOT NULL CHECK (length(document) > 1),
  PRIMARY KEY (header_id, id)
) STRICT;

CREATE TABLE new_edits (
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
) STRICT;
`;

const IN_THEIR_PLACE = `
DROP TABLE headers;
ALTER TABLE new_headers RENAME TO headers;
DROP TABLE edits;
ALTER TABLE new_edits RENAME TO edits;

CREATE INDEX headers_by_touched ON headers (touched);

CREATE TRIGGER headers_finished_no_update BEFORE UPDATE ON headers WHEN OLD.state = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change'); END;
CREATE TRIGGER headers_update_in_step BEFORE UPDATE ON headers WHEN NEW.id <> OLD.id OR NEW.revision <= OLD.revision
BEGIN SELECT RAISE(ABORT, 'a header keeps its id, and its revision grows'); END;
CREATE TRIGGER headers_no_delete BEFORE DELETE ON headers
BEGIN SELECT RAISE(ABORT, 'headers are never deleted'); END;
CREATE TRIGGER headers_no_replace BEFORE INSERT ON headers WHEN EXISTS (SELECT 1 FROM headers WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a header is never replaced'); END;

CREATE TRIGGER primaries_no_insert BEFORE INSERT ON primaries
WHEN (SELECT state FROM headers WHERE id = NEW.header_id) = 'finished'
  OR EXISTS (SELECT 1 FROM primaries WHERE header_id = NEW.header_id AND id = NEW.id)
  OR EXISTS (SELECT 1 FROM primaries WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a primary is never replaced'); END;
CREATE TRIGGER primaries_no_update BEFORE UPDATE ON primaries
WHEN (SELECT state FROM headers WHERE id = OLD.header_id) = 'finished'
  OR NEW.header_id <> OLD.header_id OR NEW.id <> OLD.id OR NEW.rowid <> OLD.rowid
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change, and a primary keeps its id'); END;
CREATE TRIGGER primaries_no_delete BEFORE DELETE ON primaries
WHEN (SELECT state FROM headers WHERE id = OLD.header_id) = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change'); END;

CREATE TRIGGER edits_no_update BEFORE UPDATE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_no_delete BEFORE DELETE ON edits
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_only_append BEFORE INSERT ON edits
WHEN NEW.revision <= (SELECT revision FROM headers WHERE id = NEW.header_id)
  OR EXISTS (SELECT 1 FROM edits WHERE header_id = NEW.header_id AND revision = NEW.revision)
  OR EXISTS (SELECT 1 FROM edits WHERE step_id = NEW.step_id)
  OR EXISTS (SELECT 1 FROM edits WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER edits_not_when_finished BEFORE INSERT ON edits
WHEN (SELECT state FROM headers WHERE id = NEW.header_id) = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished header cannot change'); END;
`;

/** Columns that a checksum of version 1 covers, in order; version 2 puts the list of primaries before the document. */
const OLD_COLUMNS = [
  'id',
  'name',
  'state',
  'revision',
  'touched',
  'primary_count',
  'piece_count',
  'changed_at',
] as const;

type OldRow = Readonly<Record<(typeof OLD_COLUMNS)[number], string | number>> & {
  readonly id: string;
  readonly revision: number;
  readonly checksum: number;
  readonly document: string;
};

/**
 * Tables are rebuilt, so foreign keys must be off. Throws DamagedRow where a row is not as version 1 wrote it: a checksum
 * made anew would hide that for good.
 */
export function splitDocuments(db: Database.Database): void {
  db.exec(NEW_TABLES);
  const putHeader = db.prepare('INSERT INTO new_headers VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  const putPrimary = db.prepare('INSERT INTO primaries VALUES (?, ?, ?, ?, ?)');
  for (const row of db.prepare<[], OldRow>('SELECT * FROM headers').all()) {
    const cells = OLD_COLUMNS.map((column) => row[column]);
    const found = checksumOf('headers', [...cells, row.document]);
    // The first databases hold their checksums unsigned.
    if ((row.checksum | 0) !== found) throw new DamagedRow(`header ${row.id} does not match its checksum`);
    const header = jsonOf(row.document, `the document of header ${row.id}`) as { primaries: readonly { id: string }[] };
    for (const primary of header.primaries) {
      const own = [row.id, primary.id, row.revision] as const;
      const text = JSON.stringify(primary);
      putPrimary.run(...own, checksumOf('primaries', [...own, text]), text);
    }
    const list = JSON.stringify(header.primaries.map(({ id }) => [id, row.revision]));
    const frame = JSON.stringify({ ...header, primaries: [] });
    putHeader.run(...cells, checksumOf('headers', [...cells, list, frame]), list, frame);
  }
  db.exec('INSERT INTO new_edits SELECT * FROM edits ORDER BY header_id, revision');
  for (const table of ['headers', 'edits']) {
    const counts = db.prepare(`SELECT (SELECT count(*) FROM ${table}) = (SELECT count(*) FROM new_${table})`).pluck();
    if (counts.get() !== 1) throw new Error(`the migration lost rows of ${table}`);
  }
  db.exec(IN_THEIR_PLACE);
}
