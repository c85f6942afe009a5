/** The build sheet on paper: everything is on it, nothing is cut off, and long headers go on over pages with their heads. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Header } from '../../../../core/header/header.ts';
import { rebuiltHeader } from '../../../../core/header/new-header.ts';
import { CAUTIONS } from '../../../../core/sheet/cautions.ts';
import { demoShelf } from '../../../../core/stock/demo-shelf.ts';
import { cutProblemOf, DEFAULT_SAW } from '../../../../core/stock/plan/from-shelf.ts';
import { keptPlan, placedPieces } from '../../../../core/stock/plan/kept-plan.ts';
import { planCuts } from '../../../../core/stock/plan/plan-cuts.ts';
import { cutList } from '../../../../core/stock/plan/saw/cut-list.ts';
import { inches } from '../../../../core/units/length.ts';
import type { Drawing } from '../../../../electron/bridge/page-messages.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { PAPERS } from '../../../../electron/output/pages/paper.ts';
import { bigHeader, headerArbitrary } from '../../../generators/headers.ts';
import { expectNoFaults, FONTS, faultsOf, pagesOf, textsOn, wordsOn } from './drawn-pages.ts';

const PAPER_NAMES = ['letter', 'a4'] as const;
const sheet = (header: Header) => ({ kind: 'sheet' as const, header, plans: [] });

describe.each(PAPER_NAMES)('on %s', (paper) => {
  test('the demo header: no word is off the paper or on another', () => {
    const pages = pagesOf(sheet(demoHeader('demo')), paper);
    expect(pages.length).toBeGreaterThan(1);
    expectNoFaults(pages);
    for (const page of pages)
      expect(page).toMatchObject({ widthMm: PAPERS[paper].widthMm, heightMm: PAPERS[paper].heightMm });
  });

  test('sixteen primaries of forty pieces with the longest names: heads on every page, every piece on one of them', () => {
    const header = longHeader();
    const pages = pagesOf(sheet(header), paper);
    expectNoFaults(pages);
    for (const page of pages) {
      const words = wordsOn(page).replaceAll(' ', '');
      expect(words).toContain(header.name.replaceAll(' ', ''));
      if (/\d (?:open|tacked|welded) tacked/.test(wordsOn(page))) expect(wordsOn(page)).toMatch(/# Piece Size/);
    }
    const all = pages.map(wordsOn).join(' ');
    for (const { name, pieces } of header.primaries) {
      expect(all.replaceAll(' ', '')).toContain(name.replaceAll(' ', ''));
      for (const { note } of pieces) expect(all.replaceAll(' ', '')).toContain(note.replaceAll(/\s/g, ''));
    }
    expect(all.match(/\b\d+ (?:open|tacked|welded)\b/g)?.length).toBe(16 * 39);
  });
});

/** Names of 120 characters, without a space in some; notes of two lines. */
function longHeader(): Header {
  const big = bigHeader(16, 40);
  const long = (word: string) => word.repeat(20).slice(0, 120).trim();
  return {
    ...big,
    name: long('Long course barge header '),
    note: long('Measured twice, '),
    primaries: big.primaries.map((primary, at) => ({
      ...primary,
      name: at % 2 === 0 ? long(`cylinder${at}`) : long(`port ${at} `),
      pieces: primary.pieces.map((piece, index) => ({
        ...piece,
        note: index % 7 === 0 ? `leg of ${at}-${index} is odd\n${long('see the drawing ')}` : '',
      })),
    })),
  };
}

test('a note of as many lines as a note may have goes on over the page', () => {
  const demo = demoHeader('demo');
  const [first, ...others] = demo.primaries;
  if (first === undefined) throw new Error('the demo has primaries');
  const pieces = first.pieces.map((piece, at) => (at === 0 ? { ...piece, note: 'x\n'.repeat(999) } : piece));
  const pages = pagesOf(sheet({ ...demo, primaries: [{ ...first, pieces }, ...others] }), 'a4');
  expect(pages.length).toBeGreaterThan(15);
  expectNoFaults(pages);
});

test('any header at all is drawn without a word off the paper', () => {
  fc.assert(
    fc.property(headerArbitrary(3), fc.constantFrom(...PAPER_NAMES), (header, paper) => {
      for (const page of pagesOf(sheet(header), paper)) {
        expect(faultsOf(page).filter((fault) => fault.startsWith('outside'))).toEqual([]);
        for (const mark of page.marks) {
          const places = mark.kind === 'text' ? [mark.at] : mark.points;
          expect(places.flat().every(Number.isFinite)).toBe(true);
        }
      }
    }),
    { numRuns: 40 },
  );
});

test('the demo sheet says what the header says', () => {
  const words = pagesOf(sheet(demoHeader('demo')), 'letter')
    .map(wordsOn)
    .join(' ');
  expect(words).toContain('Hill-climb four');
  expect(words).toContain('3/16" short');
  expect(words).toContain('sets the length');
  expect(words).toMatch(/Front: .*Side: .*Top: /);
  // Primary 3: 8 1/4, then a 90 on 3: its outside is 3.875 pi/2 = 6.087 in, 6 1/16; clocked 90 it lies a quarter of 5.498 in round.
  expect(words).toMatch(/2 bend 90° 3 6 1\/16 90 1 3\/8 12 15\/16 2 \w+/);
  for (const { title } of CAUTIONS) expect(words).toContain(title);
});

test('the engine stands on the sheet once somebody has said which it is', () => {
  const demo = demoHeader('demo');
  const { engine: _, ...unsaid } = demo;
  const wordsOf = (header: Header) => pagesOf(sheet(header), 'letter').map(wordsOn).join(' ');
  expect(wordsOf(unsaid)).not.toContain('Firing order');
  const gas = { rpm: 7500, gasTemperature: { value: 1250, unit: 'F' }, gamma: 1.3, molarMass: 28.9 } as const;
  const even = wordsOf({ ...unsaid, engine: { ...gas, firingOrder: [1, 3, 4, 2] } });
  expect(even).toMatch(/1-3-4-2.* evenly .*7500 rpm, 1250 °F/);
  const uneven = { ...gas, firingOrder: [1, 2], firingIntervalsDeg: [315, 405] };
  expect(wordsOf({ ...unsaid, engine: uneven })).toMatch(/1-2 .*315-405° apart/);
});

test('a header without anything in it still makes a page', () => {
  const empty = { ...bigHeader(0, 0), name: 'Nothing yet' };
  const pages = pagesOf(sheet(empty), 'a4');
  expect(pages).toHaveLength(1);
  expect(wordsOn(pages[0] ?? { widthMm: 0, heightMm: 0, marks: [] })).toContain('Nothing yet');
});

test('the check itself sees words on each other and off the paper', () => {
  const [page] = pagesOf(sheet(demoHeader('demo')), 'a4');
  if (page === undefined) throw new Error('no page');
  const [first] = textsOn(page);
  if (first === undefined) throw new Error('no words');
  const doubled = { ...page, marks: [...page.marks, first, { ...first, at: [1, 1] as const }] };
  expect(faultsOf(doubled).length).toBeGreaterThanOrEqual(2);
});

describe('with a cut plan that was carried out', () => {
  const header = rebuiltHeader(demoHeader('demo'), { id: 'again', name: 'Second of its kind' });
  let made = 0;
  const stock = demoShelf(() => {
    made += 1;
    return `s${made}`;
  });
  const problem = cutProblemOf([header], stock, DEFAULT_SAW);
  const kept = keptPlan({ pieces: placedPieces([header]), stock, problem, plan: planCuts(problem) });
  const planned = { kind: 'sheet' as const, header, plans: [{ ...kept }] } as Drawing;

  test.each(PAPER_NAMES)('on %s the cut list has every piece that is not short, and no word on another', (paper) => {
    const pages = pagesOf(planned, paper);
    expectNoFaults(pages);
    const words = pages.map(wordsOn).join(' ');
    expect(words).toContain('Cut list');
    const short = new Set(kept.plan.short);
    const cut = kept.pieces.filter(({ id }) => !short.has(id));
    expect(cut.length).toBeGreaterThan(0);
    for (const { primaryName, pieceNumber } of cut) {
      expect(words).toContain(`Primary ${primaryName}, piece ${pieceNumber}:`);
      expect(words).toMatch(new RegExp(`(?: |^)${primaryName}-${pieceNumber}(?: |$)`));
    }
  });

  test('the list for spreadsheets has a row for each cut', async () => {
    const file = await drawnFile({ drawing: planned, paper: 'a4', format: 'csv' }, FONTS);
    const rows = file.ok ? String(file.value.content).split('\r\n') : [];
    const steps = cutList(kept.problem, kept.plan).flatMap((work) => work.steps).length;
    expect(rows.filter((row) => row.startsWith('cut,'))).toHaveLength(steps);
  });
});

test('what was measured stands under its primary, against its pieces', () => {
  const demo = demoHeader('demo');
  const primaries = demo.primaries.map((primary, at) => {
    const reading = { kind: 'centreline' as const, length: inches(35.25), within: inches(0.125) };
    return at === 0 ? { ...primary, measured: [reading] } : primary;
  });
  const pages = pagesOf(sheet({ ...demo, primaries }), 'letter');
  expectNoFaults(pages);
  const words = pages.map(wordsOn).join(' ');
  // Primary 1 comes to 35 3/16 in and was measured 1/16 longer.
  expect(words).toContain(
    'As-built, String or wire down the middle: Measured 35 1/4" ±1/8"; its pieces come to 35 3/16"',
  );
  expect(words).toContain('agrees, +1/16".');
  expect(words.match(/As-built centreline:/g)).toHaveLength(1);
});
