/** Headers as rows: one with the figures that lists show, one for each primary, and one for all the rest. */

import type Database from 'better-sqlite3';
import type { Header } from '../../core/header/header.ts';
import { headerSchema } from '../../core/header/schema.ts';
import { frameRows, haveSameFrame } from './frame-rows.ts';
import { listIn, listText, primaryRows, type WrittenAt } from './primary-rows.ts';
import { intactRow, shaped } from './read-row.ts';
import { rowInsert, rowUpdate } from './row-writes.ts';

interface HeaderRow {
  readonly id: string;
  /** Counts the headers; where its steps are in the journal follows from it. */
  readonly number: number;
  readonly name: string;
  readonly state: 'open' | 'finished';
  readonly revision: number;
  /** Grows with every change to any header: what lists are ordered by. */
  readonly touched: number;
  readonly primary_count: number;
  readonly piece_count: number;
  /** A label for people. */
  readonly changed_at: string;
  /** That wrote the row of the header without its primaries. */
  readonly frame_revision: number;
  readonly checksum: number;
  /** Ids of the primaries in their order, each with the revision that wrote its row. */
  readonly primaries: string;
}

export type HeaderListRow = Omit<HeaderRow, 'number' | 'touched' | 'frame_revision' | 'checksum' | 'primaries'>;
export type Stamp = Pick<HeaderRow, 'number' | 'revision' | 'state' | 'name' | 'checksum'> & {
  /** The highest `touched` of all headers. */
  readonly last_touched: number;
};

/** A header as its rows hold it, with what is needed to write the next version of it. */
export interface StoredHeader {
  readonly header: Header;
  readonly revision: number;
  readonly number: number;
  readonly touched: number;
  /** Of the header's own row, which names the revision of every other: tells whether this is still what is stored. */
  readonly checksum: number;
  readonly writtenAt: WrittenAt;
  /** Revision that wrote the header without its primaries. */
  readonly frameRevision: number;
}

const LISTED = 'id, name, state, revision, primary_count, piece_count, changed_at';

function statementsOn(db: Database.Database) {
  const find = db.prepare<[string], HeaderRow>('SELECT * FROM headers WHERE id = ?');
  const stamp = db.prepare<[string], Stamp>(
    `SELECT number, revision, state, name, checksum, (SELECT max(touched) FROM headers) AS last_touched
     FROM headers WHERE id = ?`,
  );
  const list = (having: string) =>
    db.prepare<[], HeaderListRow>(
      `SELECT ${LISTED} FROM headers WHERE id ${having} (SELECT header_id FROM bin) ORDER BY touched DESC, id`,
    );
  const onBench = list('NOT IN');
  const inBin = list('IN');
  const next = db.prepare<[], Pick<HeaderRow, 'number' | 'touched'>>(
    // Two queries: each maximum is then the end of its index, not found by reading every row.
    `SELECT (SELECT coalesce(max(number), 0) + 1 FROM headers) AS number,
      (SELECT coalesce(max(touched), 0) + 1 FROM headers) AS touched`,
  );
  const insert = rowInsert(db, 'headers');
  const update = rowUpdate(db, 'headers', { key: ['id'], kept: ['number', 'touched'] });
  const updateAndTouch = rowUpdate(db, 'headers', { key: ['id'], kept: ['number'] });
  return { find, stamp, onBench, inBin, next, insert, update, updateAndTouch };
}

/** What a change says about when it was made. */
export interface ChangeLabels {
  /** For people. */
  readonly changedAt: string;
  /** The highest `touched` of all headers before it. */
  readonly lastTouched: number;
}

type Version = Pick<StoredHeader, 'header' | 'revision'> & Pick<ChangeLabels, 'changedAt'>;

function rowOf(
  { header, revision, changedAt }: Version,
  parts: Pick<StoredHeader, 'number' | 'touched' | 'writtenAt' | 'frameRevision'>,
) {
  return {
    id: header.id,
    number: parts.number,
    name: header.name,
    state: header.state,
    revision,
    touched: parts.touched,
    primary_count: header.primaries.length,
    piece_count: header.primaries.reduce((count, primary) => count + primary.pieces.length, 0),
    changed_at: changedAt,
    frame_revision: parts.frameRevision,
    primaries: listText(parts.writtenAt),
  };
}

export function headerTable(db: Database.Database) {
  const sql = statementsOn(db);
  const frames = frameRows(db);
  const primaries = primaryRows(db);
  return {
    /** Undefined: there is none. To be called in a transaction. Throws DamagedRow when the rows do not fit together. */
    read(id: string): StoredHeader | undefined {
      const found = sql.find.get(id);
      if (!found) return undefined;
      const {
        revision,
        number,
        touched,
        checksum,
        frame_revision: frameRevision,
        ...row
      } = intactRow('headers', found);
      const writtenAt = listIn(row.primaries, `the list of primaries of header ${id}`);
      const whole = { ...frames.read(id, frameRevision), primaries: primaries.read(id, writtenAt) };
      const header = shaped(headerSchema, whole, `header ${id}`);
      return { header, revision, number, touched, checksum, writtenAt, frameRevision };
    },
    /** What tells whether a header held in memory is still the stored one; does not read its documents. */
    stamp: (id: string): Stamp | undefined => sql.stamp.get(id),
    list: (place: 'bench' | 'bin'): HeaderListRow[] => (place === 'bench' ? sql.onBench : sql.inBin).all(),
    /** Stores a header that is new to the database, at revision 0. */
    insert(header: Header, changedAt: string): void {
      const version = { header, revision: 0, changedAt };
      const writtenAt = new Map(header.primaries.map(({ id }) => [id, 0]));
      const next = sql.next.get();
      if (next === undefined) throw new Error('an aggregate without a row');
      sql.insert(rowOf(version, { ...next, writtenAt, frameRevision: 0 }));
      frames.insert(header, 0);
      primaries.write({ ...version, before: { header: { primaries: [] }, writtenAt: new Map() } });
    },
    /** Writes what differs from the stored version. The header's own row comes last: once that is finished, none can be written. */
    update(before: StoredHeader, version: Version & ChangeLabels): StoredHeader {
      const { header, revision } = version;
      const writtenAt = primaries.write({ before, header, revision });
      const isSameFrame = haveSameFrame(before.header, header);
      if (!isSameFrame) frames.update(header, revision);
      const frameRevision = isSameFrame ? before.frameRevision : revision;
      const { number } = before;
      // A row that was changed last keeps its own.
      const touched = before.touched === version.lastTouched ? before.touched : version.lastTouched + 1;
      const row = rowOf(version, { number, touched, writtenAt, frameRevision });
      // A row that keeps its `touched` leaves the index on it alone: one page less to write.
      const checksum = (touched === before.touched ? sql.update : sql.updateAndTouch)(row);
      return { header, revision, number, touched, checksum, writtenAt, frameRevision };
    },
  };
}

export type HeaderTable = ReturnType<typeof headerTable>;
