/** Headers as rows: one for lists, one a primary and one for the rest; the newest step says which belong together. */

import type Database from 'better-sqlite3';
import * as z from 'zod';
import { type Header, headerSchema } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { cellOf, intactRow, shaped } from '../rows/read-row.ts';
import { rowInsert, rowUpdate } from '../rows/row-writes.ts';
import { frameRows } from './frame-rows.ts';
import { type EditRow, OF_NEWEST_STEP } from './journal.ts';
import { primaryRows } from './primary-rows.ts';
import { asMade, type RowRevisions, type Rows, revisionsIn } from './row-revisions.ts';

interface HeaderRow {
  readonly id: string;
  /** Counts the headers; where its steps are in the journal follows from it. */
  readonly number: number;
  readonly name: string;
  readonly state: 'open' | 'finished';
  /** That wrote this row; the header may be further. */
  readonly revision: number;
  /** Grows with every change to any header but the one that was changed last: what lists are ordered by. */
  readonly touched: number;
  readonly primary_count: number;
  /** At the revision of this row, as `changed_at`: those of the header are in its newest step. */
  readonly piece_count: number;
  /** A label for people: milliseconds since 1970. */
  readonly changed_at: number;
  readonly checksum: number;
  /** Ids of the primaries in their order. */
  readonly primaries: string;
}

export type HeaderListRow = Omit<HeaderRow, 'number' | 'touched' | 'checksum' | 'primaries'>;
export type Stamp = Pick<HeaderRow, 'revision' | 'state'>;

/** A header as its rows hold it, with what is needed to write the next version of it. */
export interface StoredHeader extends Rows {
  readonly revision: number;
  readonly number: number;
  readonly touched: number;
}

/** A figure of a header is that of its newest step, or of its own row when it has none. */
const figure = (name: string) => `coalesce((SELECT ${name} ${OF_NEWEST_STEP}), headers.${name}) AS ${name}`;

const idsSchema = z.array(z.string());

function statementsOn(db: Database.Database) {
  const find = db.prepare<[string], HeaderRow>('SELECT * FROM headers WHERE id = ?');
  const newest = db.prepare<[string], EditRow>(
    `SELECT * FROM edits WHERE place = (SELECT (SELECT place ${OF_NEWEST_STEP}) FROM headers WHERE id = ?)`,
  );
  const stamp = db.prepare<[string], Stamp>(`SELECT ${figure('revision')}, state FROM headers WHERE id = ?`);
  const lastTouched = db.prepare<[], number>('SELECT max(touched) FROM headers').pluck();
  const list = (having: string) =>
    db.prepare<[], HeaderListRow>(
      `SELECT id, name, state, ${figure('revision')}, primary_count, ${figure('piece_count')}, ${figure('changed_at')}
       FROM headers WHERE id ${having} (SELECT header_id FROM bin) ORDER BY touched DESC, id`,
    );
  const onBench = list('NOT IN');
  const inBin = list('IN');
  const next = db.prepare<[], Pick<HeaderRow, 'number' | 'touched'>>(
    // Two queries: each maximum is then the end of its index, not found by reading every row.
    `SELECT (SELECT coalesce(max(number), 0) + 1 FROM headers) AS number,
      (SELECT coalesce(max(touched), 0) + 1 FROM headers) AS touched`,
  );
  const insert = rowInsert(db, 'headers');
  const update = rowUpdate(db, 'headers', { key: ['id'], kept: ['number'] });
  return { find, newest, stamp, lastTouched, onBench, inBin, next, insert, update };
}

/** A version of a header that a step leads to, and the revisions of its rows after it. */
export interface Version extends Rows {
  readonly revision: number;
  /** A label for people. */
  readonly changedAt: Date;
  readonly touched: number;
}

export function pieceCount({ primaries }: Header): number {
  return primaries.reduce((count, { pieces }) => count + pieces.length, 0);
}

function rowOf(number: number, { header, revision, changedAt, touched }: Omit<Version, 'rows'>) {
  return {
    id: header.id,
    number,
    name: header.name,
    state: header.state,
    revision,
    touched,
    primary_count: header.primaries.length,
    piece_count: pieceCount(header),
    changed_at: changedAt.getTime(),
    primaries: JSON.stringify(header.primaries.map(({ id }) => id)),
  };
}

export function headerTable(db: Database.Database) {
  const sql = statementsOn(db);
  const frames = frameRows(db);
  const primaries = primaryRows(db);

  /** What the newest step says of the rows; the rows of a header without one are as they were made. */
  function newestOf(row: HeaderRow): { readonly revision: number; readonly rows: RowRevisions } {
    const ids = cellOf(idsSchema, row.primaries, `the list of primaries of header ${row.id}`);
    const found = sql.newest.get(row.id);
    if (!found) return { revision: 0, rows: asMade(ids) };
    const { revision, row_revisions } = intactRow('edits', found);
    const rows = revisionsIn(row_revisions ?? '', ids, `the revisions of the rows of header ${row.id}`);
    return { revision, rows };
  }

  return {
    /** Undefined: there is none. To be called in a transaction. Throws DamagedRow when the rows do not fit together. */
    read(id: string): StoredHeader | undefined {
      const found = sql.find.get(id);
      if (!found) return undefined;
      const { number, touched, ...row } = intactRow('headers', found);
      const { revision, rows } = newestOf(found);
      if (row.revision !== rows.own) throw new DamagedRow(`the row of header ${id} is not at ${rows.own}`);
      const whole = { ...frames.read(id, rows.frame), primaries: primaries.read(id, rows.primaries) };
      const header = shaped(headerSchema, whole, `header ${id}`);
      return { header, rows, revision, number, touched };
    },
    /** Does not read the documents. Undefined: there is none. */
    stamp: (id: string): Stamp | undefined => sql.stamp.get(id),
    /** The highest `touched` of all headers. */
    lastTouched: (): number => sql.lastTouched.get() ?? 0,
    list: (place: 'bench' | 'bin'): HeaderListRow[] => (place === 'bench' ? sql.onBench : sql.inBin).all(),
    /** Stores a header that is new to the database, at revision 0. */
    insert(header: Header, changedAt: Date): void {
      const next = sql.next.get();
      if (next === undefined) throw new Error('an aggregate without a row');
      sql.insert(rowOf(next.number, { header, revision: 0, changedAt, touched: next.touched }));
      frames.insert(header, 0);
      primaries.insert(header, 0);
    },
    /** Writes the rows that `version` has at its revision. The header's own comes last: once that is finished, none can be written. */
    update({ header: before, number }: StoredHeader, version: Version): void {
      const { header, revision, rows } = version;
      primaries.update({ before, header, revision, revisions: rows.primaries });
      if (rows.frame === revision) frames.update(header, revision);
      if (rows.own === revision) sql.update(rowOf(number, version));
    },
  };
}

export type HeaderTable = ReturnType<typeof headerTable>;
