/** The journal: a row a step, appended and never changed, each covering the checksum of the row before it. */

import type Database from 'better-sqlite3';
import { type Edit, editSchema, type Header } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { checksumOf, isIntact } from '../rows/checksums.ts';
import { type Cell, columnsOf, type Row, type StoredRow } from '../rows/columns.ts';
import { cellOf } from '../rows/read-row.ts';
import { rowTable } from '../rows/row-table.ts';

/** A step as a person knows it, and how it is taken back. */
export interface HistoryStep {
  readonly label: string;
  readonly edit: Edit;
  readonly inverse: Edit;
}

export type JournalRow = StoredRow<'journal'>;

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
type Cells = readonly Cell[];

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
  const rows = rowTable(db, 'journal', ['header_id', 'revision']);
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM journal').pluck();
  const ofHeader = 'FROM journal WHERE header_id = ?';
  const stepIdAt = db.prepare<[string, number], string>(`SELECT step_id ${ofHeader} AND revision = ?`).pluck();
  const actionAt = db
    .prepare<[string, number], JournalRow['action']>(`SELECT action ${ofHeader} AND revision = ?`)
    .pluck();
  const newest = db.prepare<[string], Newest>(
    `SELECT revision, state, checksum ${ofHeader} ORDER BY revision DESC LIMIT 1`,
  );
  // Raw rows are arrays, which take half the time of objects: all of a journal is read whenever its header is opened.
  const all = db.prepare<[string], Cells>(`SELECT ${COLUMNS.join(', ')} ${ofHeader} ORDER BY revision`).raw();
  return { rows, nextPlace, stepIdAt, actionAt, newest, all };
}

export function journalTable(db: Database.Database) {
  const sql = statementsOn(db);
  return {
    /** Returns the checksum of the row, which the next one covers. */
    append: (entry: JournalEntry): number => sql.rows.insert(rowOf(entry, sql.nextPlace.get() ?? 1)),
    /** Undefined: there is no such header. */
    newest: (headerId: string): Newest | undefined => sql.newest.get(headerId),
    stepIdAt: (headerId: string, revision: number): string | undefined => sql.stepIdAt.get(headerId, revision),
    actionAt: (headerId: string, revision: number) => sql.actionAt.get(headerId, revision),
    /** Throws DamagedRow when it is missing or not as it was written. */
    row(headerId: string, revision: number): JournalRow {
      const row = sql.rows.find(headerId, revision);
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

function rowOf(entry: JournalEntry, place: number): Row<'journal'> {
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
