/** A backend on a folder of its own, with a clock and random numbers that a test controls. */

import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { onTestFinished } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Edit } from '../../../core/edits/edit.ts';
import type { Header, Piece, Primary } from '../../../core/header/header.ts';
import { headerSchema } from '../../../core/header/schema.ts';
import type { StockItem } from '../../../core/stock/stock-item.ts';
import type { StorageProblem } from '../../../core/storage-problem.ts';
import { inches } from '../../../core/units/length.ts';
import type { AskedOf, CallName, Reply, ResponseOf } from '../../../electron/bridge/contract.ts';
import { contract } from '../../../electron/bridge/contract.ts';
import { handedOver } from '../../../electron/output/saved-file.ts';
import { type BackendOptions, createBackend, type Host } from '../../../electron/store/backend.ts';
import { withRequestId } from '../../request-ids.ts';
import { seededRandom } from '../../trust/seeded-random.ts';

export interface Shop {
  readonly folder: string;
  readonly file: string;
  call<Name extends CallName>(name: Name, request: AskedOf<Name>): Promise<Reply<Name>>;
  /** As `call`, for what must succeed. */
  must<Name extends CallName>(name: Name, request: AskedOf<Name>): Promise<ResponseOf<Name>>;
  /** Any name and any request, as a page could send them. */
  send(name: string, request: unknown): Promise<Reply<CallName>>;
  setClock(iso: string): void;
  openAhead(): void;
  close(): Promise<void>;
}

/** A folder that is removed when the test is over; in memory where the system has such a place and `fast` is asked. */
export function temporaryFolder({ fast = false } = {}): string {
  const parent = fast && existsSync('/dev/shm') ? '/dev/shm' : tmpdir();
  const folder = mkdtempSync(join(parent, 'evenrun-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

let seeds = 0;

export function openShop(
  folder = temporaryFolder(),
  { openFile, ...options }: Pick<BackendOptions, 'backupAfterMs' | 'timers'> & Pick<Host, 'openFile'> = {},
): Shop {
  let now = new Date('2026-03-01T08:00:00Z');
  seeds += 1;
  const backend = createBackend({
    folder,
    version: '1.2.3',
    clock: () => now,
    random: seededRandom(seeds),
    host: {
      saveFile: async (...file) => handedOver(...file),
      readyToClose: () => undefined,
      ...(openFile && { openFile }),
    },
    backupAfterMs: null,
    ...options,
  });
  onTestFinished(() => backend.close());
  async function call<Name extends CallName>(name: Name, request: AskedOf<Name>): Promise<Reply<Name>> {
    const reply = (await backend.call(name, withRequestId(name, request))) as Reply<Name>;
    // What leaves the program is held to the contract as strictly as what comes in.
    if (reply.ok) contract[name].response.parse(reply.value);
    return reply;
  }
  return {
    folder,
    file: join(folder, 'evenrun.sqlite'),
    call,
    async must(name, request) {
      const reply = await call(name, request);
      if (!reply.ok) throw new Error(`${name} was refused: ${JSON.stringify(reply.problems)}`);
      return reply.value;
    },
    send: backend.call,
    setClock: (iso) => {
      now = new Date(iso);
    },
    openAhead: backend.openAhead,
    close: backend.close,
  };
}

let steps = 0;
export function stepId(): string {
  steps += 1;
  return `step-${String(steps).padStart(8, '0')}`;
}

export function doStep(edit: Edit) {
  return { action: 'do' as const, stepId: stepId(), edit };
}

export function primary(id: string, pieces: Piece[] = []): Primary {
  return { id, name: id, tube: null, port: null, inletId: null, pieces };
}

export function straight(id: string, value = 2.75): Piece {
  return { kind: 'straight', id, state: 'tacked', locked: false, note: '', length: { value, unit: 'in' } };
}

/** A length of tube on the shelf. */
export function stockStraight(id: string, material = '304 stainless', count = 2): StockItem {
  const tube = { material, od: inches(1.75), wall: inches(0.065) };
  return { kind: 'straight', id, ...tube, count, note: '', length: inches(48) };
}

export function addPrimary(id: string, pieces: Piece[] = []): Edit {
  return { kind: 'addPrimary', primary: primary(id, pieces), at: 0 };
}

/** A new blank header with the edits made to it. */
export async function headerWith(
  shop: Shop,
  edits: readonly Edit[],
  name = 'Bench four',
): Promise<ResponseOf<'openHeader'>> {
  const { header } = await shop.must('createHeader', { name, from: 'blank' });
  if (edits.length > 0) {
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 0, steps: edits.map(doStep) });
  }
  return shop.must('openHeader', { headerId: header.id });
}

/** The first problem of a reply that must be a refusal. */
export function problemOf(reply: Reply<CallName>) {
  if (reply.ok) throw new Error(`not refused: ${JSON.stringify(reply.value).slice(0, 200)}`);
  return reply.problems[0];
}

/** The storage fault of a start that must not succeed. */
export async function faultOfStart(shop: Shop): Promise<Extract<StorageProblem, { kind: 'storage' }>> {
  const started = await shop.must('start', {});
  if (started.state !== 'cannotOpen') throw new Error('the database was opened');
  if (started.problem.kind !== 'storage') throw new Error(`another problem: ${started.problem.kind}`);
  return started.problem;
}

/** Another program's hand on the file: plain SQL, none of the store's code. */
export function withDatabase<Value>(file: string, act: (db: Database.Database) => Value): Value {
  const db = new Database(file);
  try {
    return act(db);
  } finally {
    db.close();
  }
}

/** As `withDatabase`, for what a bad disk may do and a trigger refuses. */
export function withoutTrigger(file: string, name: string, act: (db: Database.Database) => unknown): void {
  withDatabase(file, (db) => {
    const sql = db.prepare<[string], string>('SELECT sql FROM sqlite_schema WHERE name = ?').pluck().get(name);
    if (sql === undefined) throw new Error(`there is no trigger ${name}`);
    db.exec(`DROP TRIGGER ${name}`);
    act(db);
    db.exec(sql);
  });
}

/** Tells whether the bytes of a file changed; null when there is none. */
export function hashOf(file: string): string | null {
  return existsSync(file) ? createHash('sha256').update(readFileSync(file)).digest('hex') : null;
}

/** The text of a header's newest snapshot. */
export function storedText(db: Database.Database, headerId: string): string {
  const sql = 'SELECT document FROM snapshots WHERE header_id = ? ORDER BY revision DESC LIMIT 1';
  const document = db.prepare<[string], string>(sql).pluck().get(headerId);
  if (document === undefined) throw new Error(`there is no header ${headerId}`);
  return document;
}

/** The document that all steps of a header lead to from its first one on, whatever other snapshots there are. */
export function rebuiltText(db: Database.Database, headerId: string): string {
  const first = db
    .prepare<[string], string>('SELECT document FROM snapshots WHERE header_id = ? AND revision = 0')
    .pluck();
  const edits = db
    .prepare<[string], string>('SELECT edit FROM journal WHERE header_id = ? AND revision > 0 ORDER BY revision')
    .pluck();
  let header = headerSchema.parse(JSON.parse(first.get(headerId) ?? '')) as Header;
  for (const edit of edits.iterate(headerId)) {
    const applied = applyEdit(header, JSON.parse(edit) as Edit);
    if (!applied.ok) throw new Error(JSON.stringify(applied.problems));
    ({ header } = applied.value);
  }
  return JSON.stringify(header);
}
