/** What the board says in words, and what its keys do. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Bend, Header } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { inches, MM_PER_INCH } from '../../../core/units/length.ts';
import { boardKey } from '../../../renderer/board/rows/board-keys.ts';
import { readOutPiece, segmentLabel } from '../../../renderer/ui/words/piece-words.ts';
import {
  bandWords,
  captionSentence,
  primaryTitle,
  rowWords,
  verdictMark,
  verdictWords,
} from '../../../renderer/ui/words/verdict-words.ts';

const STYLE = { kind: 'fraction', per: 16 } as const;
const plain = (text: string) => text.replaceAll('\u2009', ' ').replaceAll('\u2212', '-');

const BEND: Bend = {
  kind: 'bend',
  id: 'b',
  clr: inches(3),
  angleDeg: 90,
  clockingDeg: 180,
  state: 'tacked',
  locked: false,
  note: '',
};

function lengthsHeader(lengthsIn: readonly number[]): Header {
  const base = demoHeader('words');
  return {
    ...base,
    collectors: [],
    settings: {
      ...base.settings,
      target: { kind: 'longest' },
      tolerance: { minus: inches(0.125), plus: inches(0.125) },
    },
    primaries: lengthsIn.map((lengthIn, index) => ({
      id: `p${index}`,
      name: String(index + 1),
      tube: null,
      port: null,
      inletId: null,
      pieces: [{ kind: 'straight', id: 's', length: inches(lengthIn), state: 'tacked', locked: false, note: '' }],
    })),
  };
}

describe('verdicts', () => {
  test('each has its own mark and its own word', () => {
    const marks = (['short', 'inBand', 'long'] as const).map(verdictMark);
    expect(new Set(marks.map(({ mark }) => mark)).size).toBe(3);
    expect(marks.map(({ word }) => word)).toEqual(['short', 'OK', 'long']);
  });

  test('say how far and which way, and at the row end also how far inside the band', () => {
    const report = matchHeader(lengthsHeader([36, 35 + 13 / 16]));
    const [longest, short] = report.primaries;
    if (longest === undefined || short === undefined) throw new Error('two primaries were made');
    expect(plain(verdictWords(short, STYLE))).toBe('3/16" short');
    expect(verdictWords(longest, STYLE)).toBe('sets the length');
    const inside = matchHeader(lengthsHeader([36, 35 + 15 / 16])).primaries[1] ?? short;
    expect([verdictWords(inside, STYLE), plain(rowWords(inside, STYLE))]).toEqual(['OK', 'OK, -1/16"']);
    expect(plain(rowWords(short, STYLE))).toBe('3/16" short');
  });

  test('the caption names the worst, its rank and the band', () => {
    const report = matchHeader(lengthsHeader([36, 35 + 13 / 16, 36]));
    expect(plain(captionSentence(report, bandWords(MM_PER_INCH / 8, MM_PER_INCH / 8, STYLE), STYLE))).toBe(
      'Primary 2 is 3/16" short, the worst of 2; 1 of 2 within ±1/8". Spread 3/16" about a mean of 35 15/16".',
    );
  });

  test('the caption says so when all is well, and when there is nothing yet', () => {
    const band = bandWords(MM_PER_INCH / 16, MM_PER_INCH / 8, STYLE);
    expect(plain(captionSentence(matchHeader(lengthsHeader([36, 36])), band, STYLE))).toBe(
      'Primary 2 is within -1/16" +1/8". Spread 0" about a mean of 36".',
    );
    expect(captionSentence(matchHeader(lengthsHeader([])), band, STYLE)).toBe(
      'No primary has a length to compare yet.',
    );
  });

  test('a bare number is called a primary, a name is left alone', () => {
    expect(primaryTitle('3')).toBe('Primary 3');
    expect(primaryTitle('Left front')).toBe('Left front');
  });
});

describe('pieces', () => {
  test('a bend is read out with everything about it', () => {
    const words = readOutPiece(BEND, { index: 1, lengthMm: 119.7, runMm: 176.8 }, STYLE);
    expect(plain(words)).toBe('Piece 2: bend 90°, CLR 3", clocked 180°, 4 11/16" long, run 6 15/16", tacked');
  });

  test('a clocking that is not recorded is said to be so', () => {
    const words = readOutPiece({ ...BEND, clockingDeg: null }, { index: 0, lengthMm: 1, runMm: 1 }, STYLE);
    expect(words).toContain('not clocked');
  });

  test('the strip carries the length of a straight and the angle of a bend', () => {
    expect(segmentLabel(BEND, STYLE)).toBe('90°');
  });
});

describe('keys of the board', () => {
  const header = lengthsHeader([30, 31, 32]);
  const rows = [0, 1, 2];

  test('up and down stop at the ends', () => {
    const press = (key: string, primaryId: string) => boardKey({ key, header, rows, primaryId, read: null })?.primaryId;
    expect(press('ArrowDown', 'p0')).toBe('p1');
    expect(press('ArrowDown', 'p2')).toBe('p2');
    expect(press('ArrowUp', 'p0')).toBe('p0');
    expect(press('Home', 'p2')).toBe('p0');
    expect(press('End', 'p0')).toBe('p2');
  });

  test('follow the order of the rows, not that of the header', () => {
    const press = (key: string) => boardKey({ key, header, rows: [2, 0, 1], primaryId: 'p0', read: null })?.primaryId;
    expect([press('ArrowUp'), press('ArrowDown'), press('Home'), press('End')]).toEqual(['p2', 'p1', 'p2', 'p1']);
  });

  test('left and right read out pieces; Enter chooses the one read out', () => {
    const first = boardKey({ key: 'ArrowRight', header, rows, primaryId: 'p1', read: null });
    expect(first).toEqual({ primaryId: 'p1', read: { primaryId: 'p1', index: 0 }, choose: false });
    const chosen = boardKey({ key: 'Enter', header, rows, primaryId: 'p1', read: first?.read ?? null });
    expect(chosen?.choose).toBe(true);
    expect(boardKey({ key: 'Enter', header, rows, primaryId: 'p1', read: null })).toBeNull();
    expect(boardKey({ key: 'q', header, rows, primaryId: 'p1', read: null })).toBeNull();
  });
});
