/** Strips as they are asked for: what cannot be made is refused in words, before it takes a forest of paper. */

import { expect, test } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { makeStrips } from '../../../core/sheet/strips/make-strips.ts';
import { millimetres } from '../../../core/units/length.ts';
import { bend, headerOf, pieCut, primaryOf, straight } from '../path/made-primaries.ts';

test('a primary that is a slip of the keys too long is not drawn in true size, and that is said', () => {
  const long = headerOf([primaryOf([straight(1e6), bend(80, 90, 0)])]);
  const made = makeStrips(long, { kind: 'along', primaryId: 'primary' });
  if (made.ok) throw new Error('was made');
  expect(made.problems.map(({ kind }) => kind)).toEqual(['stripTooLarge']);
  for (const problem of made.problems) expect(describeProblem(problem)).toMatch(/too much paper/);
});

test('a strip of ten metres still is', () => {
  const tube = { material: 'made up', od: millimetres(50), wall: millimetres(1.5) };
  const header = headerOf([primaryOf([straight(10_000)])], {}, { tube });
  expect(makeStrips(header, { kind: 'along', primaryId: 'primary' }).ok).toBe(true);
});

test('bends that are alike have one set of pies, others their own', () => {
  const header = headerOf([primaryOf([pieCut(80, 90, 0, 5), pieCut(80, 90, 30, 5), pieCut(80, 60, 0, 5)])]);
  const made = makeStrips(header, { kind: 'pies', primaryId: 'primary' });
  expect(made.ok ? made.value.map(({ name }) => name) : []).toEqual([
    'Pie of 1-1',
    'Half pie of 1-1',
    'Pie of 1-3',
    'Half pie of 1-3',
  ]);
});

test('a clocking strip for each bend, and none after a clocking that is not recorded', () => {
  const header = headerOf([primaryOf([bend(80, 30, 10), straight(20), bend(80, 30, null), bend(80, 30, 10)])]);
  const made = makeStrips(header, { kind: 'clocking', primaryId: 'primary' });
  expect(made.ok ? made.value.length : null).toBe(1);
});

test('a primary that is not there is refused', () => {
  const made = makeStrips(demoHeader('demo'), { kind: 'along', primaryId: 'none' });
  expect(made.ok ? 'made' : made.problems[0]?.kind).toBe('noSuchPrimary');
});
