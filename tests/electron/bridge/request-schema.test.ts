/** The compiled checks of requests answer as the schemas in the contract do. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import * as z from 'zod';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { contract } from '../../../electron/bridge/contract.ts';
import { requestSchema } from '../../../electron/bridge/request-schema.ts';
import { editArbitrary } from '../../generators/edits.ts';

const demo = demoHeader('demo');
const requestArbitrary = editArbitrary(demo).map((edit) => ({
  headerId: demo.id,
  baseRevision: 3,
  steps: [{ action: 'do', stepId: 'step-0001', edit }],
}));

/** Every place in a value at which something can be put, as a path of keys. */
function placesIn(value: unknown, path: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, inner]) => placesIn(inner, [...path, key]))];
}

/** `value` with something else at the place; `undefined` takes the key away, and a key more comes of `extra`. */
function spoilt(value: unknown, path: readonly string[], something: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return something;
  if (Array.isArray(value))
    return value.map((inner, at) => (String(at) === key ? spoilt(inner, rest, something) : inner));
  const inner = (value as Readonly<Record<string, unknown>>)[key];
  return { ...(value as object), [key]: spoilt(inner, rest, something) };
}

const ODD = [
  null,
  undefined,
  -0,
  -1,
  0.5,
  1e9,
  Number.NaN,
  '',
  'e\u0301',
  'a\u0000',
  'x'.repeat(3000),
  [],
  {},
  true,
  { extra: 1 },
];

function expectSame(request: unknown): void {
  const plain = contract.commitSteps.request.safeParse(request);
  const compiled = requestSchema('commitSteps').safeParse(request);
  expect(compiled.success).toBe(plain.success);
  expect(compiled.data).toStrictEqual(plain.data);
  expect(compiled.error?.issues).toEqual(plain.error?.issues);
}

test('the schema of steps can be compiled whole, and is compiled once', () => {
  expect(() => z.compile(contract.commitSteps.request, { strict: true })).not.toThrow();
  expect(requestSchema('commitSteps')).not.toBe(contract.commitSteps.request);
  expect(requestSchema('commitSteps')).toBe(requestSchema('commitSteps'));
  expect(requestSchema('saveDraft')).toBe(contract.saveDraft.request);
});

test('right requests come out the same', () => {
  fc.assert(fc.property(requestArbitrary, expectSame), { numRuns: 300, seed: 44 });
});

test('and wrong ones are refused for the same reasons', () => {
  let refused = 0;
  fc.assert(
    fc.property(requestArbitrary, fc.nat(), fc.constantFrom(...ODD), (request, at, something) => {
      const places = placesIn(request);
      const odd = spoilt(request, places[at % places.length] ?? [], something);
      if (!contract.commitSteps.request.safeParse(odd).success) refused += 1;
      expectSame(odd);
    }),
    { numRuns: 3000, seed: 45 },
  );
  expect(refused).toBeGreaterThan(1500);
});
