/** The journal: a row a step, appended and never changed, each covering the checksum of the row before it. */

import type Database from 'better-sqlite3';
import { type Edit, editSchema, type Header } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { type Covered, checksumOf, columnsOf, isIntact } from '../rows/checksums.ts';
import { cellOf } from '../rows/read-row.ts';
import { rowInsert } from '../rows/row-insert.ts';

/** A step as a person knows it, and how it is taken back. */
export interface HistoryStep {
  readonly label: string;
  readonly edit: Edit;
  readonly inverse: Edit;
}

export interface JournalRow extends Covered<'journal'> {
  /** Counts the rows of all headers: the header with the highest was changed last. */
  readonly place: number;
  readonly header_id: string;
  readonly revision: number;
  readonly step_id: string;
  readonly action: 'make' | 'do' | 'undo' | 'redo';
  /** The row that an undo or redo turns back. */
  readonly of_revision: number | null;
  /** The row that an undo after this one turns back. */
  readonly undo_next: number | null;
  /** The row, itself an undo, that a redo after this one turns back. */
  readonly redo_next: number | null;
  readonly label: string;
  readonly edit: string;
  readonly inverse: string;
  /** A label for people: milliseconds since 1970. */
  readonly changed_at: number;
  readonly name: string;
  readonly state: 'open' | 'finished';
  readonly primary_count: number;
  readonly piece_count: number;
  /** Checksum of the row before it; of the first document in a first row. */
  readonly before: number;
  readonly checksum: number;
}

/** A row before its place and checksum are known; what lists show follows from the header that it leads to. */
export interface JournalEntry {
  readonly header: Header;
  readonly revision: number;
  readonly stepId: string;
  readonly action: JournalRow['action'];
  readonly ofRevision: number | null;
  readonly undoNext: number | null;
  readonly redoNext: number | null;
  /** Null: the making of a header. */
  readonly step: HistoryStep | null;
  readonly changedAt: Date;
  readonly before: number;
}

/** A row as far as the chain of rows goes. */
export interface Link extends Pick<JournalRow, 'revision' | 'before' | 'checksum'> {
  /** Whether the row is as it was written. */
  readonly isIntact: boolean;
  readonly cells: Cells;
}
type Cells = readonly (string | number | null)[];

const COLUMNS: readonly (keyof JournalRow)[] = [...columnsOf('journal'), 'checksum'];
const [REVISION, BEFORE, CHECKSUM] = (['revision', 'before', 'checksum'] as const).map((name) =>
  COLUMNS.indexOf(name),
) as [number, number, number];

function linkIn(cells: Cells): Link {
  const checksum = cells[CHECKSUM] as number;
  const isIntact = checksumOf('journal', cells.slice(0, CHECKSUM)) === checksum;
  return { revision: cells[REVISION] as number, before: cells[BEFORE] as number, checksum, isIntact, cells };
}

export function rowIn({ cells }: Link): JournalRow {
  return Object.fromEntries(COLUMNS.map((name, place) => [name, cells[place]])) as unknown as JournalRow;
}

/** What is asked of the newest row most often. */
export type Newest = Pick<JournalRow, 'revision' | 'state' | 'checksum'>;

function statementsOn(db: Database.Database) {
  const insert = rowInsert(db, 'journal');
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM journal').pluck();
  const ofHeader = 'FROM journal WHERE header_id = ?';
  const at = db.prepare<[string, number], JournalRow>(`SELECT * ${ofHeader} AND revision = ?`);
  const stepIdAt = db.prepare<[string, number], string>(`SELECT step_id ${ofHeader} AND revision = ?`).pluck();
  const actionAt = db
    .prepare<[string, number], JournalRow['action']>(`SELECT action ${ofHeader} AND revision = ?`)
    .pluck();
  const newest = db.prepare<[string], Newest>(
    `SELECT revision, state, checksum ${ofHeader} ORDER BY revision DESC LIMIT 1`,
  );
  // Raw rows are arrays, which take half the time of objects: all of a journal is read whenever its header is opened.
  const all = db.prepare<[string], Cells>(`SELECT ${COLUMNS.join(', ')} ${ofHeader} ORDER BY revision`).raw();
  return { insert, nextPlace, at, stepIdAt, actionAt, newest, all };
}

export function journalTable(db: Database.Database) {
  const sql = statementsOn(db);
  return {
    /** Returns the checksum of the row, which the next one covers. */
    append: (entry: JournalEntry): number => sql.insert(rowOf(entry, sql.nextPlace.get() ?? 1)),
    /** Undefined: there is no such header. */
    newest: (headerId: string): Newest | undefined => sql.newest.get(headerId),
    stepIdAt: (headerId: string, revision: number): string | undefined => sql.stepIdAt.get(headerId, revision),
    actionAt: (headerId: string, revision: number) => sql.actionAt.get(headerId, revision),
    /** Throws DamagedRow when it is missing or not as it was written. */
    row(headerId: string, revision: number): JournalRow {
      const row = sql.at.get(headerId, revision);
      if (row && isIntact('journal', row)) return row;
      throw new DamagedRow(`step ${revision} is ${row ? 'damaged' : 'missing'}`, { headerId });
    },
    /** Of all rows, in their order. Linear: 10,000 take some 40 ms. */
    *links(headerId: string): Generator<Link> {
      for (const cells of sql.all.iterate(headerId)) yield linkIn(cells);
    },
  };
}

export type Journal = ReturnType<typeof journalTable>;

export function pieceCount({ primaries }: Header): number {
  return primaries.reduce((count, { pieces }) => count + pieces.length, 0);
}

function rowOf(entry: JournalEntry, place: number): Covered<'journal'> {
  const { header, step } = entry;
  return {
    place,
    header_id: header.id,
    revision: entry.revision,
    step_id: entry.stepId,
    action: entry.action,
    of_revision: entry.ofRevision,
    undo_next: entry.undoNext,
    redo_next: entry.redoNext,
    label: step?.label ?? '',
    edit: JSON.stringify(step?.edit ?? null),
    inverse: JSON.stringify(step?.inverse ?? null),
    changed_at: entry.changedAt.getTime(),
    name: header.name,
    state: header.state,
    primary_count: header.primaries.length,
    piece_count: pieceCount(header),
    before: entry.before,
  };
}

/** What an intact row did, in edits. Throws DamagedRow when they are not edits. */
export function stepIn(row: JournalRow): HistoryStep {
  return { label: row.label, edit: editIn(row), inverse: cellOf(editSchema, row.inverse, whereIs(row)) };
}

/** The edit alone. Throws DamagedRow. */
export function editIn(row: JournalRow): Edit {
  return cellOf(editSchema, row.edit, whereIs(row));
}

const whereIs = ({ header_id, revision }: JournalRow) => ({ what: `step ${revision}`, headerId: header_id });
