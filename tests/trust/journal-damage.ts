/** J3: whatever happens to a single row of the journal is found on opening, and the header is shown as far as it is sound. */

import { copyFileSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { applyEdit } from '../../core/edits/apply-edit.ts';
import type { Edit } from '../../core/edits/edit.ts';
import type { Header } from '../../core/header/header.ts';
import { openBackend, type TestBackend } from './backend-under-test.ts';
import { digestOf } from './canonical.ts';
import { randomStep } from './random-step.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

export interface DamageFinding {
  readonly tries: number;
  /** How often each kind of damage was done. */
  readonly kinds: Readonly<Record<string, number>>;
  /** Damage that was not found, a document that never was, or another header that suffered; in words. */
  readonly faults: readonly string[];
}

type Random = () => number;
type Cell = string | number | null;
type Row = Readonly<Record<string, Cell>> & { readonly header_id: string };
/** Digests of each header's documents, by revision. */
type Documents = ReadonlyMap<string, readonly string[]>;

const FILE = 'evenrun.sqlite';
/** So that damage meets journals without a step, with one snapshot, and with several. */
const STEPS = [0, 12, 150];
const KEY = ['place', 'header_id', 'revision'];

async function fill(backend: TestBackend, steps: number, random: Random): Promise<readonly [string, string[]]> {
  const { header } = await backend.must('createHeader', { name: `${steps} steps`, from: 'demo' });
  const documents: Header[] = [header];
  const undone: Edit[] = [];
  for (let revision = 0; revision < steps; revision += 1) {
    const before = documents.at(-1) as Header;
    const stepId = `damage-${String(revision).padStart(6, '0')}`;
    const back = revision % 7 === 6 ? undone.pop() : undefined;
    const edit = back ?? randomStep(before, stepId, random);
    const applied = applyEdit(before, edit);
    if (!applied.ok) throw new Error(JSON.stringify(applied.problems));
    const step = back ? { action: 'undo' as const, stepId } : { action: 'do' as const, stepId, edit };
    await backend.must('commitSteps', { headerId: header.id, baseRevision: revision, steps: [step] });
    if (!back) undone.push(applied.value.inverse);
    documents.push(applied.value.header);
  }
  return [header.id, documents.map(digestOf)];
}

async function makeSound(folder: string): Promise<Documents> {
  const random = seededRandom(31);
  const backend = openBackend(folder, random);
  const documents = new Map<string, readonly string[]>();
  for (const steps of STEPS) documents.set(...((await fill(backend, steps, random)) as [string, string[]]));
  await backend.close();
  return documents;
}

function insert(db: Database.Database, row: Row): void {
  const names = Object.keys(row);
  db.prepare(`INSERT INTO journal (${names.join(', ')}) VALUES (${names.map((name) => `@${name}`).join(', ')})`).run(
    row,
  );
}

function remove(db: Database.Database, row: Row): void {
  db.prepare('DELETE FROM journal WHERE place = ?').run(row['place']);
}

const keyOf = (row: Row) => Object.fromEntries(KEY.map((name) => [name, row[name] ?? null]));

/** Another value of the same type; for text, one letter of it. */
function otherValue(value: Cell, random: Random): Cell {
  if (value === null) return 1;
  if (typeof value === 'number') return value + 1 + randomBelow(random, 5);
  if (value === '') return 'x';
  const at = randomBelow(random, value.length);
  const letter = String.fromCharCode((value.charCodeAt(at) & 0x7f) ^ 1);
  return value.slice(0, at) + letter + value.slice(at + 1);
}

interface Damage {
  readonly kind: string;
  /** The headers of the rows that it touched. */
  readonly headerIds: readonly string[];
}

function removed(db: Database.Database, rows: readonly Row[], random: Random): Damage {
  const row = pick(rows, random);
  remove(db, row);
  return { kind: 'removed', headerIds: [row.header_id] };
}

/** A copy of a row where the next one of its own or of another header would be. */
function doubled(db: Database.Database, rows: readonly Row[], random: Random): Damage {
  const row = pick(rows, random);
  const owner = pick(rows, random).header_id;
  const revision = rows.filter(({ header_id }) => header_id === owner).length;
  insert(db, { ...row, place: rows.length + 1, header_id: owner, revision });
  return { kind: 'doubled', headerIds: [owner] };
}

/** Two rows that stand in each other's place. */
function swapped(db: Database.Database, rows: readonly Row[], random: Random): Damage {
  const one = pick(rows, random);
  const other = pick(
    rows.filter((row) => row !== one),
    random,
  );
  for (const row of [one, other]) remove(db, row);
  insert(db, { ...one, ...keyOf(other) } as Row);
  insert(db, { ...other, ...keyOf(one) } as Row);
  return { kind: 'swapped', headerIds: [one.header_id, other.header_id] };
}

function altered(db: Database.Database, rows: readonly Row[], random: Random): Damage {
  const row = pick(rows, random);
  // A header that is not there takes a row away like any other loss.
  const name = pick(Object.keys(row), random);
  const changed = { ...row, [name]: otherValue(row[name] ?? null, random) } as Row;
  const isTaken = rows.some(
    (each) => each !== row && (each['place'] === changed['place'] || isSameStep(each, changed)),
  );
  if (isTaken) return altered(db, rows, random);
  remove(db, row);
  insert(db, changed);
  return { kind: `altered`, headerIds: [row.header_id] };
}

const isSameStep = (one: Row, other: Row) => one.header_id === other.header_id && one['revision'] === other['revision'];

function pick<Item>(items: readonly Item[], random: Random): Item {
  return items[randomBelow(random, items.length)] as Item;
}

const WAYS = [removed, doubled, swapped, altered];

/** As a bad disk would: nothing that protects the journal is in the way, and all of it is there again afterwards. */
function damage(file: string, random: Random, way: (typeof WAYS)[number]): Damage {
  const db = new Database(file);
  try {
    for (const pragma of ['foreign_keys = OFF', 'ignore_check_constraints = ON']) db.pragma(pragma);
    const triggers = db
      .prepare<[], { name: string; sql: string }>(
        "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'journal'",
      )
      .all();
    const rows = db.prepare<[], Row>('SELECT * FROM journal ORDER BY place').all();
    for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
    const done = way(db, rows, random);
    for (const { sql } of triggers) db.exec(sql);
    return done;
  } finally {
    db.close();
  }
}

async function faultsAfter(folder: string, documents: Documents, done: Damage): Promise<readonly string[]> {
  const backend = openBackend(folder, seededRandom(1));
  const faults: string[] = [];
  try {
    const start = await backend.must('start', {});
    if (start.state !== 'ready') return [`the database does not open: ${JSON.stringify(start.problem)}`];
    for (const [headerId, digests] of documents) {
      const isHit = done.headerIds.includes(headerId);
      const opened = await backend.call('openHeader', { headerId });
      if (!opened.ok) {
        faults.push(`${headerId} does not open: ${JSON.stringify(opened.problems)}`);
        continue;
      }
      const { header, revision, damage: found } = opened.value;
      if (digestOf(header) !== digests[revision]) faults.push(`revision ${revision} never was as it is shown`);
      if (isHit === (found === null)) faults.push(isHit ? 'not found' : 'found in another header');
      const edit: Edit = { kind: 'setHeader', set: { note: 'goes on' } };
      const steps = [{ action: 'do' as const, stepId: 'step-after-damage', edit }];
      const step = await backend.call('commitSteps', { headerId, baseRevision: revision, steps });
      if (step.ok === isHit) faults.push(isHit ? 'a step was built on damage' : 'another header does not go on');
    }
  } finally {
    await backend.close();
  }
  return faults;
}

export async function damageJournals(tries: number, seed: number): Promise<DamageFinding> {
  const root = mkdtempSync(join(existsSync('/dev/shm') ? '/dev/shm' : tmpdir(), 'evenrun-damage-'));
  const kinds: Record<string, number> = {};
  const faults: string[] = [];
  try {
    const sound = join(root, 'sound');
    const documents = await makeSound(sound);
    for (let at = 0; at < tries; at += 1) {
      const folder = join(root, 'damaged');
      mkdirSync(folder);
      copyFileSync(join(sound, FILE), join(folder, FILE));
      const way = WAYS[at % WAYS.length] ?? removed;
      const done = damage(join(folder, FILE), seededRandom(seed + at), way);
      kinds[done.kind] = (kinds[done.kind] ?? 0) + 1;
      const found = await faultsAfter(folder, documents, done);
      faults.push(...found.map((fault) => `${done.kind}, seed ${seed + at}: ${fault}`));
      rmSync(folder, { recursive: true });
    }
  } finally {
    rmSync(root, { recursive: true });
  }
  return { tries, kinds, faults };
}
