/** The bridge in memory that the page's tests use answers as the store does, whatever is asked in whatever order. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { newHeader } from '../../../core/header/new-header.ts';
import type { AskedOf, CallName, Reply, RequestOf, ResponseOf } from '../../../electron/bridge/contract.ts';
import { MemoryBridge } from '../../memory-bridge.ts';
import { drawFrom, EDIT_KINDS, randomEdit } from '../store/random-edits.ts';
import { openShop, type Shop, stepId, temporaryFolder } from '../store/shop.ts';

type Opened = ResponseOf<'openHeader'>;
type Steps = RequestOf<'commitSteps'>['steps'];

/** The same header by the ids that the two gave it. */
interface Twin {
  readonly inMemory: string;
  readonly stored: string;
}

/** Asks both, holds their answers against each other, and keeps what is asked next by. */
class Both {
  readonly memory = new MemoryBridge();
  readonly shop: Shop;
  readonly twins: Twin[] = [];
  /** Of the header in hand, as the bridge in memory has it. */
  opened: Opened | null = null;
  at = 0;
  revision = 0;
  requests = 0;
  last: { readonly baseRevision: number; readonly steps: Steps } | null = null;

  constructor(folder: string) {
    this.shop = openShop(folder);
  }

  async ask<Name extends CallName>(name: Name, request: AskedOf<Name>): Promise<Reply<Name>> {
    const twin = this.twins[this.at];
    const inMemory = await this.memory.call(name, { ...request, ...(twin && { headerId: twin.inMemory }) } as never);
    const stored = await this.shop.call(name, { ...request, ...(twin && { headerId: twin.stored }) } as never);
    const made = [inMemory, stored].map((reply) =>
      reply.ok ? (reply.value as Partial<Opened>).header?.id : undefined,
    );
    const [one, other] = made;
    if (one !== undefined && other !== undefined && !this.twins.some(({ inMemory: id }) => id === one))
      this.twins.push({ inMemory: one, stored: other });
    expect(this.#withoutIds(stored)).toEqual(this.#withoutIds(inMemory));
    return inMemory as Reply<Name>;
  }

  async open(): Promise<Opened> {
    const reply = await this.ask('openHeader', { headerId: '' });
    if (!reply.ok) throw new Error(JSON.stringify(reply.problems));
    this.opened = reply.value;
    this.revision = reply.value.revision;
    return reply.value;
  }

  async commit(steps: Steps, baseRevision = this.revision, draft?: { field: string; text: string } | null) {
    const request = { headerId: '', baseRevision, steps };
    await this.ask('commitSteps', draft === undefined ? request : { ...request, draft });
    this.last = { baseRevision, steps };
    await this.open();
  }

  #withoutIds(reply: unknown): unknown {
    let text = JSON.stringify(reply);
    for (const [index, { inMemory, stored }] of this.twins.entries())
      for (const id of [inMemory, stored]) text = text.replaceAll(`"${id}"`, `"header ${index}"`);
    return JSON.parse(text);
  }
}

type Act = (both: Both) => Promise<unknown>;

const edit = (kind: (typeof EDIT_KINDS)[number], numbers: readonly number[]): Act => {
  return async (both) => {
    const { header } = await both.open();
    both.requests += 1;
    const made = randomEdit(kind, header, { id: `n${both.requests}`, draw: drawFrom(numbers) });
    await both.commit([{ action: 'do', stepId: stepId(), edit: made }]);
  };
};

const turnBack = (action: 'undo' | 'redo', times: number): Act => {
  return (both) => both.commit(Array.from({ length: times }, () => ({ action, stepId: stepId() })));
};

/** More than is sent at opening, so that the rest has to be asked for. */
const manySteps: Act = async (both) => {
  const steps = Array.from({ length: 70 }, (_, note) => ({
    action: 'do' as const,
    stepId: stepId(),
    edit: { kind: 'setHeader' as const, set: { note: `note ${note}` } },
  }));
  await both.commit(steps);
};

const readHistory: Act = async (both) => {
  const { moreUndo, moreRedo } = await both.open();
  if (moreUndo !== null) await both.ask('readHistory', { headerId: '', action: 'undo', from: moreUndo });
  if (moreRedo !== null) await both.ask('readHistory', { headerId: '', action: 'redo', from: moreRedo });
};

/** The second time as the same request, the third as another under its id. */
const make = (name: 'createHeader' | 'duplicateHeader' | 'importHeader'): Act => {
  return async (both) => {
    both.requests += 1;
    const requestId = `request-${both.requests}`;
    const { header } = await both.open();
    const asked = (title: string) =>
      name === 'createHeader'
        ? { requestId, name: title, from: 'blank' as const }
        : name === 'duplicateHeader'
          ? { requestId, headerId: '', name: title, as: title === 'Another' ? ('again' as const) : ('same' as const) }
          : { requestId, header: { ...newHeader({ id: 'given', name: title }), note: header.note } };
    const from = both.at;
    for (const title of ['Another', 'Another', 'Something else']) {
      await askAs(both, name, asked(title));
    }
    both.at = from;
  };
};

/** Without the header in hand where the call has none. */
async function askAs(both: Both, name: CallName, request: object): Promise<void> {
  if ('headerId' in request) await both.ask(name, request as never);
  else {
    const { at } = both;
    both.at = -1;
    await both.ask(name, request as never);
    both.at = at;
  }
}

/** From any row, whether an undo or redo could come to it or not. */
const readHistoryFrom = (from: number, action: 'undo' | 'redo'): Act => {
  return (both) => both.ask('readHistory', { headerId: '', action, from });
};

const others: readonly Act[] = [
  ...[0, 1, 2, 3, 5, 9, 12].flatMap((from) => [readHistoryFrom(from, 'undo'), readHistoryFrom(from, 'redo')]),
  manySteps,
  readHistory,
  make('createHeader'),
  make('duplicateHeader'),
  make('importHeader'),
  async (both) => both.last && both.commit(both.last.steps, both.last.baseRevision, null),
  (both) => both.commit([{ action: 'do', stepId: stepId(), edit: { kind: 'setHeader', set: { note: 'late' } } }], 0),
  (both) => both.ask('saveDraft', { headerId: '', draft: { field: 'entry:a', text: 'b90' } }),
  (both) =>
    both.commit([{ action: 'do', stepId: stepId(), edit: { kind: 'setHeader', set: { name: 'x' } } }], undefined, {
      field: 'entry:b',
      text: '2 1/',
    }),
  (both) => both.ask('readRevision', { headerId: '' }),
  async (both) => {
    both.at = (both.at + 1) % both.twins.length;
    await both.open();
  },
  (both) => both.commit([{ action: 'do', stepId: stepId(), edit: { kind: 'finishHeader' } }]),
];

async function runAll(acts: readonly Act[], folder: string): Promise<void> {
  const both = new Both(folder);
  both.at = -1;
  await both.ask('createHeader', { requestId: 'first-request', name: 'In both', from: 'blank' } as never);
  both.at = 0;
  await both.open();
  for (const act of acts) await act(both);
  await both.shop.close();
}

test('the bridge in memory and the store answer alike', { timeout: 300_000 }, async () => {
  const numbers = fc.array(fc.double({ min: 0, max: 0.999_999, noNaN: true }), { minLength: 4, maxLength: 12 });
  const act = fc.oneof(
    {
      weight: 3,
      arbitrary: fc.tuple(fc.constantFrom(...EDIT_KINDS), numbers).map(([kind, drawn]) => edit(kind, drawn)),
    },
    {
      weight: 2,
      arbitrary: fc
        .tuple(fc.constantFrom('undo' as const, 'redo' as const), fc.integer({ min: 1, max: 4 }))
        .map(([action, times]) => turnBack(action, times)),
    },
    { weight: 4, arbitrary: fc.constantFrom(...others) },
  );
  const sequences = fc.array(act, { maxLength: 40, size: 'max' });
  const run = (acts: readonly Act[]) => runAll(acts, temporaryFolder({ fast: true }));
  await fc.assert(fc.asyncProperty(sequences, run), { numRuns: 60, seed: 20_261_128, endOnFailure: true });
});

test('a header that is not there is not there for either', async () => {
  const both = new Both(temporaryFolder());
  both.at = -1;
  for (const name of ['openHeader', 'readRevision'] as const)
    expect((await both.ask(name, { headerId: 'nobody' })).ok).toBe(false);
  expect((await both.ask('readHistory', { headerId: 'nobody', action: 'undo', from: 1 })).ok).toBe(false);
  expect(
    (
      await both.ask('duplicateHeader', {
        headerId: 'nobody',
        name: 'x',
        as: 'same',
        requestId: 'some-request',
      } as never)
    ).ok,
  ).toBe(false);
});
