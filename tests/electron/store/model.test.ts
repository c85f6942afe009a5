/** R19: whatever is done in whatever order, the store holds what a plain list of documents says it should. */

import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header } from '../../../core/header/header.ts';
import type { RequestOf } from '../../../electron/bridge/contract.ts';
import { HISTORY_WINDOW } from '../../../electron/store/header/opened-header.ts';
import { drawFrom, EDIT_KINDS, randomEdit } from './random-edits.ts';
import { doStep, openShop, problemOf, rebuiltText, type Shop, stepId, storedText, withDatabase } from './shop.ts';

const { EVENRUN_LONG } = process.env;
const IS_LONG = EVENRUN_LONG === '1';
const SEQUENCES = IS_LONG ? 5000 : 500;
/** Each a test of its own, so that one that fails or hangs is told from the others. */
const PARTS = 5;
const LIMIT = { timeout: 1_800_000 } as const;
const SEED = IS_LONG ? Date.now() % 2 ** 31 : 20_260_301;

/** All that a header can be taken back or forward to, in order, and where it stands. */
interface Model {
  headerId: string;
  documents: Header[];
  at: number;
  revision: number;
}
interface Real {
  readonly folder: string;
  shop: Shop;
  /** Another process on the same database. */
  second: Shop;
  /** The last request that was answered well, and how. */
  last: { readonly request: RequestOf<'commitSteps'>; readonly revision: number } | null;
  ids: number;
}
/** How often each kind of edit was taken: a run in which one never was would show nothing about it. */
const taken = new Map<string, number>();
type Command = fc.AsyncCommand<Model, Real>;

const present = (model: Model) => model.documents[model.at] as Header;
const whenOpen = (model: Model) => present(model).state === 'open';

function remember(model: Model, header: Header): void {
  model.documents = [...model.documents.slice(0, model.at + 1), header];
  model.at += 1;
  model.revision += 1;
}

async function agree(model: Model, real: Real): Promise<void> {
  const opened = await real.shop.must('openHeader', { headerId: model.headerId });
  expect(opened.header).toEqual(present(model));
  expect(opened.revision).toBe(model.revision);
  const isOpen = whenOpen(model);
  const [undo, redo] = isOpen ? [model.at, model.documents.length - 1 - model.at] : [0, 0];
  expect(opened.undo).toHaveLength(Math.min(undo, HISTORY_WINDOW));
  expect(opened.redo).toHaveLength(Math.min(redo, HISTORY_WINDOW));
  expect([opened.moreUndo !== null, opened.moreRedo !== null]).toEqual([undo > HISTORY_WINDOW, redo > HISTORY_WINDOW]);
  expect(opened.damage).toBeNull();
}

async function commit(model: Model, real: Real, steps: RequestOf<'commitSteps'>['steps']) {
  const request = { headerId: model.headerId, baseRevision: model.revision, steps };
  const reply = await real.shop.call('commitSteps', request);
  if (reply.ok) real.last = { request, revision: reply.value.revision };
  return reply;
}

/** Makes the edit in both; what core refuses, the store must refuse in the same words. */
const edit = (kind: (typeof EDIT_KINDS)[number], numbers: readonly number[]): Command => ({
  check: whenOpen,
  async run(model, real) {
    real.ids += 1;
    const made = randomEdit(kind, present(model), { id: `n${real.ids}`, draw: drawFrom(numbers) });
    const wanted = applyEdit(present(model), made);
    const reply = await commit(model, real, [doStep(made)]);
    expect(reply.ok).toBe(wanted.ok);
    if (wanted.ok) {
      remember(model, wanted.value.header);
      taken.set(kind, (taken.get(kind) ?? 0) + 1);
    } else expect(reply).toEqual(wanted);
    await agree(model, real);
  },
  toString: () => `${kind}(${numbers.map((n) => n.toFixed(3)).join(', ')})`,
});

const turnBack = (action: 'undo' | 'redo', times: number): Command => ({
  check: whenOpen,
  async run(model, real) {
    const to = model.at + (action === 'undo' ? -times : times);
    const isThere = to >= 0 && to < model.documents.length;
    const reply = await commit(
      model,
      real,
      Array.from({ length: times }, () => ({ action, stepId: stepId() })),
    );
    expect(reply.ok).toBe(isThere);
    if (isThere) Object.assign(model, { at: to, revision: model.revision + times });
    else expect(problemOf(reply)).toEqual({ kind: 'nothingToUndo', action });
    await agree(model, real);
  },
  toString: () => `${action} x${times}`,
});

const sendAgain: Command = {
  check: () => true,
  async run(model, real) {
    if (!real.last) return;
    expect(await real.shop.must('commitSteps', real.last.request)).toEqual({ revision: real.last.revision });
    await agree(model, real);
  },
  toString: () => 'send the last request again',
};

const changeElsewhere: Command = {
  check: whenOpen,
  async run(model, real) {
    const note = { kind: 'setHeader', set: { note: `elsewhere ${model.revision}` } } as const;
    const wanted = applyEdit(present(model), note);
    if (!wanted.ok) throw new Error('a note is always taken');
    await real.second.must('commitSteps', {
      headerId: model.headerId,
      baseRevision: model.revision,
      steps: [doStep(note)],
    });
    const stale = await commit(model, real, [doStep({ kind: 'setHeader', set: { name: 'Lost?' } })]);
    expect(problemOf(stale)).toEqual({ kind: 'changedElsewhere', expected: model.revision, found: model.revision + 1 });
    remember(model, wanted.value.header);
    await agree(model, real);
  },
  toString: () => 'change it in another process',
};

const reopen: Command = {
  check: () => true,
  async run(model, real) {
    await real.shop.close();
    real.shop = openShop(real.folder);
    await agree(model, real);
  },
  toString: () => 'close and reopen',
};

/** Goes on with what came out of the file, as a new header without history. */
const exportAndImport: Command = {
  check: () => true,
  async run(model, real) {
    const saved = await real.shop.must('exportHeader', { headerId: model.headerId });
    if (saved.kind !== 'download') throw new Error('not handed over');
    const content = Buffer.from(saved.text).toString('base64');
    const read = await real.shop.must('previewFile', {
      fileName: saved.fileName,
      content,
      expect: 'header',
      unit: 'in',
    });
    if (read.kind !== 'header') throw new Error('not a header');
    expect(read.header).toEqual(present(model));
    const { header } = await real.shop.must('importHeader', { header: read.header });
    const wanted: Header = { ...present(model), id: header.id, state: 'open' };
    Object.assign(model, { headerId: header.id, documents: [wanted], at: 0, revision: 0 });
    await agree(model, real);
  },
  toString: () => 'export and import',
};

const finish: Command = {
  check: whenOpen,
  async run(model, real) {
    const reply = await commit(model, real, [doStep({ kind: 'finishHeader' })]);
    expect(reply.ok).toBe(true);
    remember(model, { ...present(model), state: 'finished' });
    await agree(model, real);
    const refused = await commit(model, real, [{ action: 'undo', stepId: stepId() }]);
    expect(problemOf(refused)?.kind).toBe('finished');
  },
  toString: () => 'finish',
};

/** A beginning on which every kind of edit finds what it is about. */
function withSomeOfEverything(header: Header): Header {
  const draw = drawFrom([0.1, 0.6, 0.35, 0.8, 0.05]);
  const kinds = [
    'addPrimary',
    'addPrimary',
    'addPiece',
    'addPiece',
    'addPiece',
    'addCollector',
    'addObstacle',
  ] as const;
  return kinds.reduce((made, kind, index) => {
    const next = applyEdit(made, randomEdit(kind, made, { id: `first-${index}`, draw }));
    return next.ok ? next.value.header : made;
  }, header);
}

async function runAll(commands: Iterable<Command>): Promise<void> {
  const folder = mkdtempSync(join(existsSync('/dev/shm') ? '/dev/shm' : tmpdir(), 'evenrun-model-'));
  const real: Real = { folder, shop: openShop(folder), second: openShop(folder), last: null, ids: 0 };
  try {
    const blank = await real.shop.must('createHeader', { name: 'Model', from: 'blank' });
    const { header } = await real.shop.must('importHeader', { header: withSomeOfEverything(blank.header) });
    const model: Model = { headerId: header.id, documents: [header], at: 0, revision: 0 };
    await fc.asyncModelRun(() => ({ model, real }), commands);
    await real.shop.close();
    await real.second.close();
    journalsLeadToDocuments(folder);
  } finally {
    await real.shop.close();
    await real.second.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Every header on disk, rebuilt from its journal, is its document byte for byte. */
function journalsLeadToDocuments(folder: string): void {
  withDatabase(join(folder, 'evenrun.sqlite'), (db) => {
    for (const id of db.prepare<[], string>('SELECT id FROM headers').pluck().all())
      expect(rebuiltText(db, id)).toBe(storedText(db, id));
  });
}

const numbers = fc.array(fc.double({ min: 0, max: 0.999_999, noNaN: true }), { minLength: 4, maxLength: 12 });
const commands = fc.commands(
  [
    ...EDIT_KINDS.map((kind) => numbers.map((drawn) => edit(kind, drawn))),
    fc.integer({ min: 1, max: 3 }).map((times) => turnBack('undo', times)),
    fc.integer({ min: 1, max: 3 }).map((times) => turnBack('undo', times)),
    fc.integer({ min: 1, max: 3 }).map((times) => turnBack('redo', times)),
    fc.constant(sendAgain),
    fc.constant(changeElsewhere),
    fc.constant(reopen),
    fc.constant(exportAndImport),
    fc.constant(finish),
  ],
  { maxCommands: 60, size: 'max' },
);

describe(`model = answer = disk = journal, over ${SEQUENCES / PARTS} sequences of commands`, () => {
  test.each(Array.from({ length: PARTS }, (_, part) => SEED + part))('from seed %i', LIMIT, async (seed) => {
    const numRuns = SEQUENCES / PARTS;
    await fc.assert(fc.asyncProperty(commands, runAll), { numRuns, seed, endOnFailure: IS_LONG });
  });

  test('every kind of edit was taken often', () => {
    const never = EDIT_KINDS.filter((kind) => (taken.get(kind) ?? 0) < 20);
    // Reopening is only ever the inverse of finishing, and a finished header is not taken back.
    expect(never).toEqual(['reopenHeader']);
  });
});
