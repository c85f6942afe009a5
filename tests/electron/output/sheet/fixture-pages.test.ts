/** The fixture sheet on paper: every place has its row and its cross, and the plan in true size is in true size. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import { fixtureSheet } from '../../../../core/sheet/fixture/fixture-sheet.ts';
import { formatLengthBare } from '../../../../core/units/format-length.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { boundsOf } from '../../../../electron/output/sheet/flat-drawing.ts';
import { headerArbitrary } from '../../../generators/headers.ts';
import { expectNoFaults, FONTS, faultsOf, pagesOf, wordsOn } from './drawn-pages.ts';

const demo = demoHeader('demo');
const BENCHES = [
  { kind: 'flangeDown', primaryId: 'primary-1' },
  { kind: 'collectorDown', inletId: 'inlet-1' },
  { kind: 'threePlaces', primaryIdA: 'primary-1', primaryIdB: 'primary-4', inletId: 'inlet-2' },
] as const;

describe.each(BENCHES)('$kind', (bench) => {
  test.each(['a4', 'letter'] as const)('on %s no word is off the paper or on another', (paper) => {
    for (const plan of ['scaled', 'trueSize'] as const) {
      const pages = pagesOf({ kind: 'fixture', header: demo, bench, plan }, paper);
      if (plan === 'scaled') expectNoFaults(pages);
      else expectNoFaults(pages.filter((page) => !wordsOn(page).includes('Plan in true size')));
    }
  });

  test('every joint, port, end and inlet has its row, with its height', () => {
    const sheet = fixtureSheet(demo, bench);
    if (!sheet.ok) throw new Error(JSON.stringify(sheet.problems));
    const words = pagesOf({ kind: 'fixture', header: demo, bench, plan: 'scaled' }, 'a4').map(wordsOn).join(' ');
    const places = [...sheet.value.primaries.flatMap((one) => one.places), ...sheet.value.inlets];
    expect(places).toHaveLength(demo.primaries.reduce((sum, { pieces }) => sum + pieces.length + 1, 0) + 4);
    const bare = (mm: number) => formatLengthBare(mm, demo.settings.display).replaceAll(/\s/g, ' ');
    for (const { name, xMm, yMm, heightMm } of places) {
      expect(words).toContain(`${name} ${bare(xMm)} ${bare(yMm)} ${bare(heightMm)} `);
    }
  });
});

test('the list for spreadsheets has a row a place', async () => {
  const drawing = { kind: 'fixture', header: demo, bench: BENCHES[0], plan: 'scaled' } as const;
  const file = await drawnFile({ drawing, paper: 'a4', format: 'csv' }, FONTS);
  if (!file.ok) throw new Error('was refused');
  const rows = String(file.value.content).trim().split('\r\n');
  expect(rows).toHaveLength(1 + demo.primaries.reduce((sum, { pieces }) => sum + pieces.length + 1, 0) + 4);
  expect(rows[0]).toContain('height (in)');
});

test('the plan in true size has all its crosses, each 12 mm long', () => {
  const drawing = { kind: 'fixture', header: demo, bench: BENCHES[0], plan: 'trueSize' } as const;
  const pages = pagesOf(drawing, 'a4');
  const levels = pages.flatMap(({ marks }) =>
    marks.flatMap((mark) => {
      if (mark.kind !== 'line' || mark.widthMm !== 0.35 || mark.points.length !== 2) return [];
      const [[x1, y1] = [0, 0], [x2, y2] = [0, 0]] = mark.points;
      return y1 === y2 && Math.abs(Math.abs(x2 - x1) - 12) < 1e-3 ? [1] : [];
    }),
  );
  const places = demo.primaries.reduce((sum, { pieces }) => sum + pieces.length + 1, 0) + 4;
  // Those on an overlap stand on both parts; those that an edge cuts through are shorter there.
  expect(levels.length).toBeGreaterThanOrEqual(places * 0.9);
});

test('any header at all is laid on the bench without a word off the paper', () => {
  fc.assert(
    fc.property(headerArbitrary(3), fc.constantFrom('a4' as const, 'letter' as const), (header, paper) => {
      const [first] = header.primaries.filter(({ port }) => port !== null);
      if (first === undefined) return;
      const bench = { kind: 'flangeDown', primaryId: first.id } as const;
      for (const page of pagesOf({ kind: 'fixture', header, bench, plan: 'scaled' }, paper)) {
        expect(faultsOf(page).filter((fault) => fault.startsWith('outside'))).toEqual([]);
        const points = page.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.at] : mark.points));
        for (const [x, y] of points) {
          expect(x >= 0 && x <= page.widthMm && y >= 0 && y <= page.heightMm, `${x} ${y}`).toBe(true);
        }
      }
    }),
    { numRuns: 60, seed: 15 },
  );
});

test('an inlet with the longest name is named in the plan as far as there is room, and whole in the table', () => {
  const long = 'inlet of the left bank '.repeat(6).slice(0, 120).trim();
  const collectors = demo.collectors.map((one) => ({
    ...one,
    inlets: one.inlets.map((inlet) => ({ ...inlet, name: long })),
  }));
  const pages = pagesOf({ kind: 'fixture', header: { ...demo, collectors }, bench: BENCHES[0], plan: 'scaled' }, 'a4');
  for (const page of pages) expect(faultsOf(page).filter((fault) => fault.startsWith('outside'))).toEqual([]);
  expect(pages.map(wordsOn).join(' ').split(long)).toHaveLength(1 + 4);
});

test('a drawing may have more points than a call has room for arguments', () => {
  const points = Array.from({ length: 300_000 }, (_, at) => ({ xMm: at, yMm: 1 - 2 * at }));
  expect(boundsOf(points)).toEqual({ lowX: 0, highX: 299_999, lowY: -599_997, highY: 1 });
});
