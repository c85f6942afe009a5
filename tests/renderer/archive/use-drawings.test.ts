/** Which drawings of the archive's rows are kept. */

import { expect, test } from 'vitest';
import { keptDrawings } from '../../../renderer/archive/use-drawings.ts';

const drawings = (from: number, to: number) =>
  Array.from({ length: to - from }, (_, at): [string, number] => [`h${from + at}`, from + at]);

test('no row that is shown loses its drawing, however many are shown', () => {
  const shown = drawings(0, 900);
  const kept = keptDrawings(shown, new Set(shown.map(([id]) => id)));
  expect([...kept]).toEqual(shown);
});

test('of rows that are not shown any more the drawings of the last four hundred stay', () => {
  const kept = keptDrawings(drawings(0, 500), new Set(['h3']));
  expect([kept.size, kept.has('h3'), kept.has('h99'), kept.has('h100')]).toEqual([401, true, false, true]);
});
