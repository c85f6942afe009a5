/** The table of headers: one row a header, with its present document and the figures that lists show. */

import type Database from 'better-sqlite3';
import type { Header } from '../../core/header/header.ts';
import { headerSchema } from '../../core/header/schema.ts';
import { sealed } from './checksums.ts';
import { cellOf, intactRow } from './read-row.ts';

export interface HeaderRow {
  readonly id: string;
  readonly name: string;
  readonly state: 'open' | 'finished';
  readonly revision: number;
  /** Grows with every change to any header: what lists are ordered by. */
  readonly touched: number;
  readonly primary_count: number;
  readonly piece_count: number;
  /** A label for people. */
  readonly changed_at: string;
  readonly checksum: number;
  readonly document: string;
}

export type HeaderListRow = Omit<HeaderRow, 'touched' | 'checksum' | 'document'>;
type Stamp = Pick<HeaderRow, 'revision' | 'state' | 'name' | 'checksum' | 'touched'>;

/**
 * Documents are filled up with spaces to whole units of this many bytes. A row that keeps its size is overwritten in
 * place, and only those of its pages that changed are written; any other size moves the row to fresh pages, which
 * doubles what a commit has to bring to the disk.
 */
const DOCUMENT_UNIT_BYTES = 1024;

const LISTED = 'id, name, state, revision, primary_count, piece_count, changed_at';

function statementsOn(db: Database.Database) {
  const find = db.prepare<[string], HeaderRow>('SELECT * FROM headers WHERE id = ?');
  const stamp = db.prepare<[string], Stamp>(
    'SELECT revision, state, name, checksum, touched FROM headers WHERE id = ?',
  );
  const list = (having: string) =>
    db.prepare<[], HeaderListRow>(
      `SELECT ${LISTED} FROM headers WHERE id ${having} (SELECT header_id FROM bin) ORDER BY touched DESC, id`,
    );
  const onBench = list('NOT IN');
  const inBin = list('IN');
  const lastTouched = db.prepare<[], number>('SELECT coalesce(max(touched), 0) FROM headers').pluck();
  const insert = db.prepare(
    `INSERT INTO headers VALUES (@id, @name, @state, @revision, @touched, @primary_count, @piece_count, @changed_at,
      @checksum, @document)`,
  );
  const changed = `name = @name, state = @state, revision = @revision, primary_count = @primary_count,
    piece_count = @piece_count, changed_at = @changed_at, checksum = @checksum, document = @document`;
  const update = db.prepare(`UPDATE headers SET ${changed} WHERE id = @id AND touched = @touched`);
  const updateAndTouch = db.prepare(`UPDATE headers SET ${changed}, touched = @touched WHERE id = @id`);
  return { find, stamp, onBench, inBin, lastTouched, insert, update, updateAndTouch };
}

/** The row that would now be stored for a document. */
function rowOf(
  header: Header,
  at: { readonly revision: number; readonly changedAt: string; readonly touched: number },
) {
  return sealed('headers', {
    id: header.id,
    name: header.name,
    state: header.state,
    revision: at.revision,
    touched: at.touched,
    primary_count: header.primaries.length,
    piece_count: header.primaries.reduce((count, primary) => count + primary.pieces.length, 0),
    changed_at: at.changedAt,
    document: filledUp(JSON.stringify(header)),
  });
}

function filledUp(json: string): string {
  const over = Buffer.byteLength(json) % DOCUMENT_UNIT_BYTES;
  return over === 0 ? json : json + ' '.repeat(DOCUMENT_UNIT_BYTES - over);
}

export function headerTable(db: Database.Database) {
  const sql = statementsOn(db);
  return {
    /** Undefined: there is none. */
    find(id: string): HeaderRow | undefined {
      const row = sql.find.get(id);
      return row && intactRow('headers', row);
    },
    /** What tells whether a document held in memory is still the stored one; does not read the document. */
    stamp: (id: string): Stamp | undefined => sql.stamp.get(id),
    list: (place: 'bench' | 'bin'): HeaderListRow[] => (place === 'bench' ? sql.onBench : sql.inBin).all(),
    /** The `touched` for a row that is being changed now; a row that was changed last keeps its own. */
    touchedNow(own: number | null): number {
      const last = sql.lastTouched.get() ?? 0;
      return own !== null && own === last ? own : last + 1;
    },
    rowOf,
    insert: (row: ReturnType<typeof rowOf>): unknown => sql.insert.run(row),
    /** A row that keeps its `touched` leaves the index on it alone: one page less to write. */
    update(row: ReturnType<typeof rowOf>): void {
      if (sql.update.run(row).changes === 0) sql.updateAndTouch.run(row);
    },
  };
}

export type HeaderTable = ReturnType<typeof headerTable>;

export function documentOf(row: { readonly id: string; readonly document: string }): Header {
  return cellOf(headerSchema, row.document, `the document of header ${row.id}`);
}
