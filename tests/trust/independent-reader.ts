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

interface JournalRow {
  readonly revision: number;
  readonly step_id: string;
  readonly edit: string;
  readonly before: number;
  readonly checksum: number;
}

interface SnapshotRow {
  readonly revision: number;
  readonly chain: number;
  readonly document: string;
}

interface DraftRow {
  readonly field: string;
  readonly text: string;
}

/** Every link from the first document on, and every snapshot against the steps that lead to it. */
function readOne(db: DatabaseSync, id: string): DiskReading {
  const rows = db
    .prepare('SELECT revision, step_id, edit, before, checksum FROM journal WHERE header_id = ? ORDER BY revision')
    .all(id) as unknown as JournalRow[];
  const snapshots = db
    .prepare('SELECT revision, chain, document FROM snapshots WHERE header_id = ? ORDER BY revision')
    .all(id) as unknown as SnapshotRow[];
  const corrupt: string[] = [];
  const torn: string[] = [];
  const [first] = snapshots;
  if (first?.revision !== 0) return { headers: [], corrupt: [`${id}: no first document`], torn };
  let header = headerIn(first.document);
  for (const [revision, row] of rows.entries()) {
    const before = revision === 0 ? signedCrc(first.document) : rows[revision - 1]?.checksum;
    if (row.revision !== revision) corrupt.push(`${id}: the journal has a gap at ${revision}`);
    if (row.before !== before) corrupt.push(`${id}: step ${revision} does not follow the one before it`);
    if (revision > 0) header = replayed(header, JSON.parse(row.edit) as PlainEdit);
    const snapshot = snapshots.find((each) => each.revision === revision);
    if (snapshot && snapshot.chain !== row.checksum) corrupt.push(`${id}: another step led to snapshot ${revision}`);
    if (snapshot && digestOf(headerIn(snapshot.document)) !== digestOf(header))
      torn.push(`${id}: the journal does not lead to snapshot ${revision}`);
  }
  const last = rows.at(-1);
  if ((snapshots.at(-1)?.revision ?? 0) > (last?.revision ?? -1))
    torn.push(`${id}: a snapshot of a step that is not there`);
  const mark = header.primaries[0]?.pieces[0]?.note;
  if (header.note.startsWith('step ') || (mark ?? '').startsWith('step ')) {
    if (mark !== header.note) torn.push(`${id}: the header says "${header.note}", its first piece "${mark}"`);
  }
  const draft = db.prepare('SELECT field, text FROM drafts WHERE header_id = ?').get(id) as DraftRow | undefined;
  if (draft?.field === DRAFT_OF_STEP && draft.text !== last?.step_id)
    torn.push(`${id}: the draft of ${draft.text} with ${last?.step_id}`);
  const stepIds = rows.slice(1).map((row) => row.step_id);
  if (new Set(stepIds).size !== stepIds.length) corrupt.push(`${id}: a step is there twice`);
  return { headers: [{ id, revision: rows.length - 1, digest: digestOf(header), stepIds }], corrupt, torn };
}

/** CRC-32 as a signed number, bit by bit (ITU-T V.42). */
function signedCrc(text: string): number {
  let crc = -1;
  for (const byte of Buffer.from(text)) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb8_8320 : 0);
  }
  return ~crc;
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
  const rows = db.prepare('SELECT id FROM headers').all() as unknown as { readonly id: string }[];
  const each = rows.map(({ id }) => readOne(db, id));
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
    // A cut in the very first transaction leaves a rollback journal behind, and the file half made.
    for (const end of ['-wal', '-journal']) if (existsSync(file + end)) cpSync(file + end, target + end);
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
