/**
 * A second reader of the database that shares no code with the program: Node's own SQLite, raw SQL and plain JSON. It
 * replays the journal with an edit applier of its own, so that a mistake in the store cannot hide itself. It reads a
 * copy of the files, for reading would fold the log that a crash left behind into the database.
 */

import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { digestOf } from './canonical.ts';
import { DRAFT_OF_STEP } from './protocol.ts';

interface PlainPiece {
  readonly id: string;
  readonly note: string;
}
interface PlainPrimary {
  readonly id: string;
  readonly pieces: readonly PlainPiece[];
}
interface PlainHeader {
  readonly note: string;
  readonly primaries: readonly PlainPrimary[];
}
interface PlainEdit {
  readonly kind: string;
  readonly edits?: readonly PlainEdit[];
  readonly set?: object;
  readonly primaryId?: string;
  readonly pieceId?: string;
  readonly piece?: PlainPiece;
  readonly at?: number;
}

export interface HeaderOnDisk {
  readonly id: string;
  readonly revision: number;
  readonly digest: string;
  readonly stepIds: readonly string[];
}

export interface DiskReading {
  readonly headers: readonly HeaderOnDisk[];
  /** Damage to pages, references, counters or documents. Empty when sound. */
  readonly corrupt: readonly string[];
  /** Changes of which one half is there and the other is not. */
  readonly torn: readonly string[];
}

function replayedPieces(pieces: readonly PlainPiece[], edit: PlainEdit): readonly PlainPiece[] {
  const { piece } = edit;
  if (edit.kind === 'removePiece') return pieces.filter(({ id }) => id !== edit.pieceId);
  if (piece === undefined) throw new Error(`an edit without a piece: ${edit.kind}`);
  if (edit.kind === 'replacePiece') return pieces.map((old) => (old.id === piece.id ? piece : old));
  if (edit.kind === 'addPiece') return pieces.toSpliced(edit.at ?? 0, 0, piece);
  throw new Error(`the tests make no edit of this kind: ${edit.kind}`);
}

/** The kinds of edit that the crash tests make, and no others. */
function replayed(header: PlainHeader, edit: PlainEdit): PlainHeader {
  if (edit.kind === 'batch') return (edit.edits ?? []).reduce(replayed, header);
  if (edit.kind === 'setHeader') return { ...header, ...edit.set };
  const primaries = header.primaries.map((primary) =>
    primary.id === edit.primaryId ? { ...primary, pieces: replayedPieces(primary.pieces, edit) } : primary,
  );
  return { ...header, primaries };
}

function headerIn(document: string): PlainHeader {
  const parsed = JSON.parse(document) as PlainHeader & { readonly header?: PlainHeader };
  return parsed.header ?? parsed;
}

interface EditRow {
  readonly place: number;
  readonly step_id: string;
  readonly edit: string;
  readonly row_revisions: string | null;
}

interface DraftRow {
  readonly field: string;
  readonly text: string;
}

interface HeaderRow {
  readonly id: string;
  readonly number: number;
  readonly revision: number;
  readonly primaries: string;
}

/** The steps of the header with this number have the places from the first on; a place is the first and the revision. */
const firstPlace = (number: number) => number * 2 ** 32;

/** A header from its own row, that of its frame and those of its primaries; its newest step says how new each is. */
function assembled(
  db: DatabaseSync,
  row: HeaderRow,
  newest: EditRow | undefined,
): { readonly header: PlainHeader; readonly torn: readonly string[] } {
  const rows = db
    .prepare('SELECT id, revision, document FROM primaries WHERE header_id = ?')
    .all(row.id) as unknown as {
    id: string;
    revision: number;
    document: string;
  }[];
  const frame = db.prepare('SELECT revision, document FROM frames WHERE header_id = ?').get(row.id) as
    | { revision: number; document: string }
    | undefined;
  const listed = JSON.parse(row.primaries) as readonly string[];
  const [own, ofFrame, ...revisions] =
    newest === undefined ? [0, 0, ...listed.map(() => 0)] : (JSON.parse(newest.row_revisions ?? '[]') as number[]);
  const found = listed.map((id, at) => rows.find((each) => each.id === id && each.revision === revisions[at]));
  const isWhole =
    row.revision === own &&
    frame?.revision === ofFrame &&
    revisions.length === listed.length &&
    rows.length === listed.length &&
    found.every((each) => each !== undefined);
  const primaries = found.flatMap((each) => (each === undefined ? [] : [JSON.parse(each.document) as PlainPrimary]));
  const header = { ...headerIn(frame?.document ?? '{"note":""}'), primaries };
  return { header, torn: isWhole ? [] : [`${row.id}: its rows are not those that its newest step names`] };
}

function readOne(db: DatabaseSync, row: HeaderRow): DiskReading {
  const { id, number } = row;
  const base = db.prepare('SELECT document FROM bases WHERE header_id = ?').get(id) as { document: string } | undefined;
  const edits = db
    .prepare('SELECT place, step_id, edit, row_revisions FROM edits WHERE place >= ? AND place < ? ORDER BY place')
    .all(firstPlace(number), firstPlace(number + 1)) as unknown as EditRow[];
  const revision = edits.length;
  const { header, torn: apart } = assembled(db, row, edits.at(-1));
  const corrupt: string[] = [];
  const torn: string[] = [...apart];
  const mark = header.primaries[0]?.pieces[0]?.note;
  if (header.note.startsWith('step ') || (mark ?? '').startsWith('step ')) {
    if (mark !== header.note) torn.push(`${id}: the header says "${header.note}", its first piece "${mark}"`);
  }
  const draft = db.prepare('SELECT field, text FROM drafts WHERE header_id = ?').get(id) as DraftRow | undefined;
  const last = edits.at(-1)?.step_id;
  if (draft?.field === DRAFT_OF_STEP && draft.text !== last)
    torn.push(`${id}: the draft of ${draft.text} with ${last}`);
  if (edits.some((step, index) => step.place !== firstPlace(number) + index + 1))
    corrupt.push(`${id}: the journal has a gap`);
  if (base === undefined) corrupt.push(`${id}: no first document`);
  else {
    const replay = edits.reduce(
      (now, row) => replayed(now, JSON.parse(row.edit) as PlainEdit),
      headerIn(base.document),
    );
    if (digestOf(replay) !== digestOf(header)) torn.push(`${id}: the journal does not lead to the document`);
  }
  const stepIds = edits.map((row) => row.step_id);
  if (new Set(stepIds).size !== stepIds.length) corrupt.push(`${id}: a step is there twice`);
  return { headers: [{ id, revision, digest: digestOf(header), stepIds }], corrupt, torn };
}

function readDatabase(db: DatabaseSync): DiskReading {
  const pages = db
    .prepare('PRAGMA integrity_check')
    .all()
    .map((row) => String(Object.values(row)[0]));
  const orphans = db.prepare('PRAGMA foreign_key_check').all();
  const corrupt = [
    ...pages.filter((line) => line !== 'ok'),
    ...(orphans.length > 0 ? [`${orphans.length} rows point at nothing`] : []),
  ];
  const hasTables = db.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'headers'").get() !== undefined;
  if (!hasTables) return { headers: [], corrupt, torn: [] };
  const rows = db.prepare('SELECT id, number, revision, primaries FROM headers').all() as unknown as HeaderRow[];
  const each = rows.map((row) => readOne(db, row));
  return {
    headers: each.flatMap((one) => one.headers),
    corrupt: [...corrupt, ...each.flatMap((one) => one.corrupt)],
    torn: each.flatMap((one) => one.torn),
  };
}

/** The database file of a data folder; null when none was made yet. */
export function databaseFileIn(folder: string): string | null {
  if (!existsSync(folder)) return null;
  const names = readdirSync(folder).filter((name) => /\.(sqlite|db)$/.test(name));
  if (names.length > 1) throw new Error(`several databases in ${folder}: ${names.join(', ')}`);
  return names[0] === undefined ? null : join(folder, names[0]);
}

/** Reads the database of a data folder whose writers are dead. Never changes it. */
export function readIndependently(folder: string): DiskReading {
  const file = databaseFileIn(folder);
  if (file === null) return { headers: [], corrupt: [], torn: [] };
  const copy = mkdtempSync(join(tmpdir(), 'evenrun-read-'));
  try {
    const target = join(copy, 'copy.sqlite');
    cpSync(file, target);
    if (existsSync(`${file}-wal`)) cpSync(`${file}-wal`, `${target}-wal`);
    const db = new DatabaseSync(target);
    try {
      return readDatabase(db);
    } finally {
      db.close();
    }
  } catch (error) {
    return { headers: [], corrupt: [error instanceof Error ? error.message : String(error)], torn: [] };
  } finally {
    rmSync(copy, { recursive: true });
  }
}
