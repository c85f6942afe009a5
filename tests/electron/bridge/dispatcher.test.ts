/** The dispatcher answers everything, throws nothing, and tells a defect from a refusal. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CallName } from '../../../electron/bridge/contract.ts';
import { contract } from '../../../electron/bridge/contract.ts';
import { createDispatcher, type Handlers } from '../../../electron/bridge/dispatcher.ts';
import { openShop, problemOf } from '../store/shop.ts';

const { EVENRUN_LONG } = process.env;

/** Handlers that only count how often they are asked. */
function countingHandlers(): { readonly handlers: Handlers; readonly asked: CallName[] } {
  const asked: CallName[] = [];
  const names = Object.keys(contract) as CallName[];
  const handlers = Object.fromEntries(
    names.map((name) => [name, () => ({ ok: true, value: asked.push(name) })]),
  ) as unknown as Handlers;
  return { handlers, asked };
}

const noDefect = (call: string, cause: unknown): string => {
  throw new Error(`${call} threw`, { cause });
};

describe('what does not fit the contract', () => {
  test.each(['', 'nope', '__proto__', 'constructor', 'toString', 'hasOwnProperty'])(
    'no call is named "%s"',
    async (name) => {
      const { handlers, asked } = countingHandlers();
      const reply = await createDispatcher(handlers, noDefect).call(name, {});
      expect(reply).toEqual({ ok: false, problems: [{ kind: 'invalidRequest', call: name, detail: 'no such call' }] });
      expect(asked).toEqual([]);
    },
  );

  test('the detail names the field at fault', async () => {
    const { handlers } = countingHandlers();
    const reply = await createDispatcher(handlers, noDefect).call('readRevision', { headerId: 'with space' });
    expect(problemOf(reply)).toMatchObject({ call: 'readRevision', detail: expect.stringContaining('headerId') });
  });

  test('a request with getters that throw is a refusal or a defect, never a rejection', async () => {
    const { handlers } = countingHandlers();
    const nasty = Object.defineProperty({}, 'headerId', { enumerable: true, get: () => JSON.parse('{') });
    const reply = await createDispatcher(handlers, () => 'ref').call('readRevision', nasty);
    expect(problemOf(reply)).toEqual({ kind: 'internal', reference: 'ref' });
  });
});

describe('defects', () => {
  test.each([
    ['thrown', () => JSON.parse('{')],
    ['rejected', () => Promise.reject(new Error('later'))],
  ])('%s ones are reported once and answered with their reference', async (_how, act) => {
    const reported: unknown[] = [];
    const handlers = { ...countingHandlers().handlers, listStock: act } as Handlers;
    const dispatcher = createDispatcher(handlers, (call, cause) => `${call} ${reported.push(cause)}`);
    expect(problemOf(await dispatcher.call('listStock', {}))).toEqual({ kind: 'internal', reference: 'listStock 1' });
    expect(reported).toHaveLength(1);
  });
});

test('R18: random requests on every call of the real backend throw nothing and, when refused, change nothing', async () => {
  const shop = openShop();
  const { header } = await shop.must('createHeader', { name: 'Stays', from: 'demo' });
  const before = await shop.must('openHeader', { headerId: header.id });
  // Calls that may well succeed on random requests are not asked with ones that fit.
  const names = (Object.keys(contract) as CallName[]).filter(
    (name) => Object.keys(contract[name].request.shape).length > 0 && !contract[name].request.safeParse({}).success,
  );
  const requests = fc.oneof(
    fc.anything({ withNullPrototype: true, withBigInt: true, withDate: true }),
    fc.record(
      { headerId: fc.anything(), baseRevision: fc.anything(), steps: fc.array(fc.anything()) },
      { requiredKeys: [] },
    ),
    fc.record({ item: fc.anything(), baseRevision: fc.constant(null), content: fc.string(), fileName: fc.string() }),
    fc.constant({
      headerId: header.id,
      baseRevision: 0,
      steps: [{ action: 'do', stepId: 'abcdefgh', edit: { kind: 'addPrimary' } }],
    }),
  );
  await fc.assert(
    fc.asyncProperty(fc.constantFrom(...names), requests, async (name, request) => {
      const reply = await shop.send(name, request);
      expect(problemOf(reply)?.kind).toBe('invalidRequest');
    }),
    { numRuns: EVENRUN_LONG === '1' ? 100_000 : 5000, seed: 18 },
  );
  expect(await shop.must('openHeader', { headerId: header.id })).toEqual(before);
  expect((await shop.must('listStock', {})).stock).toEqual([]);
  expect(Object.keys(Object.prototype)).toEqual([]);
});
