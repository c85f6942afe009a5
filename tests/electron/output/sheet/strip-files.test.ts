/** Strips as files, read back by other libraries: PDF, SVG and DXF of one joint agree, and the rules are as long as they say. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import { makeStrips, type StripsAsked } from '../../../../core/sheet/strips/make-strips.ts';
import { inches } from '../../../../core/units/length.ts';
import type { RequestOf } from '../../../../electron/bridge/contract.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { expectWithin } from '../../../tolerance.ts';
import { stripsOf } from './draw-digests.ts';
import { expectNoFaults, FONTS, faultsOf, pagesOf, wordsOn } from './drawn-pages.ts';
import { type Drawn, farthestMm, readDxf, readPdfPages, readSvg } from './read-back.ts';

const AGREE_MM = 0.01;
const demo = demoHeader('demo');

async function fileOf(strips: StripsAsked, format: RequestOf<'savePages'>['format'], paper: 'a4' | 'letter' = 'a4') {
  const drawn = await drawnFile({ drawing: { kind: 'strips', header: demo, strips }, paper, format }, FONTS);
  if (!drawn.ok) throw new Error(JSON.stringify(drawn.problems));
  return drawn.value.content;
}

const JOINTS: readonly (readonly [string, StripsAsked])[] = [
  [
    'a cope of 45 degrees with an offset',
    {
      kind: 'cope',
      runOd: inches(2.5),
      branchOd: inches(1.75),
      branchWall: inches(0.065),
      angleDeg: 45,
      offset: inches(0.25),
      cutTo: 'inside',
    },
  ],
  [
    'a square cope of equal tubes, which has corners',
    {
      kind: 'cope',
      runOd: inches(1.75),
      branchOd: inches(1.75),
      branchWall: inches(0.065),
      angleDeg: 90,
      offset: inches(0),
      cutTo: 'outside',
    },
  ],
  ['a merge of four', { kind: 'merge', tubes: 4, od: inches(1.75), leanDeg: 10, outletOd: inches(3) }],
];

/** The longest line, moved so that it starts at the origin. */
function sawLine(lines: readonly Drawn[]): Drawn {
  const longest = lines.reduce((best, one) => (one.length > best.length ? one : best), []);
  const [x0, y0] = longest[0] ?? [0, 0];
  return longest.map(([x, y]) => [x - x0, y - y0] as const);
}

describe.each(JOINTS)('%s', (_name, strips) => {
  test('PDF, SVG and both kinds of DXF have the same saw line', async () => {
    const made = makeStrips(demo, strips);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const points = made.value[0]?.lines.find(({ use }) => use === 'saw')?.points ?? [];
    const meant = sawLine([points.map(({ xMm, yMm }) => [xMm, yMm] as const)]);
    expect(meant.length).toBeGreaterThan(64);
    const [pdf] = await readPdfPages((await fileOf(strips, 'pdf')) as Uint8Array);
    const read: Readonly<Record<string, readonly Drawn[]>> = {
      pdf: pdf?.lines ?? [],
      svg: readSvg(String(await fileOf(strips, 'svg'))).lines,
      arcs: readDxf(String(await fileOf(strips, 'dxfArcs'))).lines,
      chords: readDxf(String(await fileOf(strips, 'dxfChords'))).lines,
    };
    for (const [name, lines] of Object.entries(read)) {
      const line = sawLine(lines);
      expect(farthestMm(line, meant), name).toBeLessThan(AGREE_MM);
      expect(farthestMm(meant, line), name).toBeLessThan(AGREE_MM);
    }
  });
});

describe('the rules', () => {
  test.each(stripsOf(demo).map((strips) => [strips.kind, strips] as const))(
    'are on every page of the %s strips',
    async (_kind, strips) => {
      for (const paper of ['a4', 'letter'] as const) {
        const pages = await readPdfPages((await fileOf(strips, 'pdf', paper)) as Uint8Array);
        expect(pages.length).toBeGreaterThan(0);
        for (const { lines, words, widthMm } of pages) {
          expect(words).toContain('Print at 100 %');
          const level = lines.flatMap((line) => {
            const [a, b] = line;
            return line.length === 2 && a !== undefined && b !== undefined && a[1] === b[1]
              ? [Math.abs(b[0] - a[0])]
              : [];
          });
          expect(level.filter((mm) => Math.abs(mm - 100) <= 0.01)).toHaveLength(1);
          expect(level.filter((mm) => Math.abs(mm - 101.6) <= 0.01)).toHaveLength(1);
          expectWithin(widthMm, paper === 'a4' ? 210 : 215.9, 0.01);
        }
      }
    },
  );

  test('are in the drawings for plotters too', async () => {
    const strips = JOINTS[0]?.[1];
    if (strips === undefined) throw new Error('no joint');
    const level = (lines: readonly Drawn[]) =>
      lines.flatMap(([a, b, c]) =>
        a !== undefined && b !== undefined && c === undefined ? [Math.hypot(b[0] - a[0], b[1] - a[1])] : [],
      );
    for (const lines of [
      readSvg(String(await fileOf(strips, 'svg'))).lines,
      readDxf(String(await fileOf(strips, 'dxfArcs'))).lines,
    ]) {
      expect(level(lines).some((mm) => Math.abs(mm - 100) < 1e-6)).toBe(true);
      expect(level(lines).some((mm) => Math.abs(mm - 101.6) < 1e-6)).toBe(true);
    }
  });
});

test('an SVG is as large in millimetres as its own figures', async () => {
  const { widthMm, heightMm, viewBox } = readSvg(
    String(await fileOf({ kind: 'along', primaryId: 'primary-1' }, 'svg')),
  );
  expect(viewBox).toEqual([0, 0, widthMm, heightMm]);
  expect(widthMm).toBeGreaterThan(800);
});

test('a DXF says that it is in millimetres', async () => {
  const { unit } = readDxf(String(await fileOf({ kind: 'clocking', primaryId: 'primary-1' }, 'dxfArcs')));
  // 4: millimetres ($INSUNITS).
  expect(unit).toBe(4);
});

describe.each(['a4', 'letter'] as const)('on %s', (paper) => {
  test.each(stripsOf(demo).map((strips) => [strips.kind, strips] as const))(
    'no word of the %s strips is off the paper',
    (_kind, strips) => {
      expectNoFaults(pagesOf({ kind: 'strips', header: demo, strips }, paper));
    },
  );
});

test('a strip longer than a page is in parts that share the line at which they are joined', async () => {
  const pages = pagesOf({ kind: 'strips', header: demo, strips: { kind: 'along', primaryId: 'primary-1' } }, 'a4');
  expect(pages.length).toBeGreaterThan(3);
  for (let at = 1; at < pages.length; at += 1) {
    const name = `join A1.${at}`;
    expect(pages.filter((page) => wordsOn(page).includes(name))).toHaveLength(2);
  }
  // All that lies between the first and the last join comes to the length of the primary.
  const made = makeStrips(demo, { kind: 'along', primaryId: 'primary-1' });
  const width = made.ok ? (made.value[0]?.widthMm ?? 0) : 0;
  const printed = 210 - 24;
  expect(pages.length).toBe(Math.ceil((width - 10) / (printed - 10)));
});

test('what has nothing to make a strip of says so on a page', () => {
  const [page] = pagesOf({ kind: 'strips', header: demo, strips: { kind: 'pies', primaryId: 'primary-1' } }, 'a4');
  expect(page === undefined ? '' : wordsOn(page)).toContain('no pie-cut bend');
});

test('the far end of a strip along a primary is no joint, and words at its start stay on it', () => {
  const [first, ...others] = demo.primaries;
  if (first === undefined) throw new Error('the demo has primaries');
  const none = { kind: 'straight', id: 'none', state: 'planned', locked: false, note: '', length: inches(0) } as const;
  const header = { ...demo, primaries: [{ ...first, pieces: [none, ...first.pieces] }, ...others] };
  const made = makeStrips(header, { kind: 'along', primaryId: first.id });
  const labels = made.ok ? (made.value[0]?.labels ?? []) : [];
  const turned = labels.filter(({ isUpright }) => isUpright).map(({ text }) => text);
  expect(turned).toHaveLength(first.pieces.length + 1);
  expect(turned.filter((text) => text.startsWith('joint'))).toHaveLength(first.pieces.length);
  expect(turned.at(-1)).toMatch(/^end: /);
  expect(Math.min(...labels.map(({ at }) => at.xMm))).toBeGreaterThan(0);
});

test('words that are moved back onto their part are not too long for it by their thin spaces', () => {
  const [first, ...others] = demo.primaries;
  if (first === undefined) throw new Error('the demo has primaries');
  // Piece 3, a straight of 1 3/8 in, comes to begin at every sixteenth before the right edge of the first part.
  for (let sixteenths = 0; sixteenths <= 40; sixteenths += 1) {
    const moved = first.pieces.map((piece, at) =>
      at === 0 && piece.kind === 'straight' ? { ...piece, length: inches(0.5 + sixteenths / 16) } : piece,
    );
    const header = { ...demo, primaries: [{ ...first, pieces: moved }, ...others] };
    const strips = { kind: 'along', primaryId: first.id } as const;
    for (const page of pagesOf({ kind: 'strips', header, strips }, 'letter')) {
      expect(faultsOf(page).filter((fault) => fault.startsWith('outside'))).toEqual([]);
    }
  }
});

test('a DXF names letters by four digits, two numbers for those beyond the first plane', async () => {
  const header = { ...demo, name: 'É 🚀' };
  const strips = { kind: 'along', primaryId: 'primary-1' } as const;
  const drawn = await drawnFile({ drawing: { kind: 'strips', header, strips }, paper: 'a4', format: 'dxfArcs' }, FONTS);
  expect(drawn.ok ? drawn.value.content : '').toContain('\\U+00C9 \\U+D83D\\U+DE80. True size');
});
