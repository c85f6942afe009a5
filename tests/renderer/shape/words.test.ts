/** Closures and gaps in words. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { type Closure, headerClearances } from '../../../core/index.ts';
import { inches, MM_PER_INCH } from '../../../core/units/length.ts';
import { gapVerdict, gapWords } from '../../../renderer/shape/gap-words.ts';
import { closureWords } from '../../../renderer/ui/words/closure-words.ts';

const STYLE = { kind: 'fraction', per: 16 } as const;
const plain = (text: string) => text.replaceAll('\u2009', ' ');

function closure(alongIn: number, asideIn: number, tiltDeg: number): Closure {
  const [alongMm, asideMm] = [alongIn * MM_PER_INCH, asideIn * MM_PER_INCH];
  return { gap: { x: alongMm, y: asideMm, z: 0 }, gapMm: Math.hypot(alongMm, asideMm), tiltDeg, alongMm, asideMm };
}

describe('a closure', () => {
  test.each([
    [3 / 16, 0, 0.4, 'ends 3/16" short of the inlet, 0.4° off'],
    [-0.25, 0, 0, 'ends 1/4" deep in the inlet, square'],
    [0, 1.125, 12.34, 'ends 1 1/8" to the side, 12.3° off'],
    [0.5, 0.0625, 0.04, 'ends 1/2" short of the inlet and 1/16" to the side, square'],
    [0.01, -0, 0, 'ends in the inlet, square'],
  ])('%d along, %d aside, %d off: %s', (along, aside, tilt, words) => {
    expect(plain(closureWords(closure(along, aside, tilt), STYLE))).toBe(words);
  });
});

describe('gaps', () => {
  const demo = demoHeader('gaps');
  // Wanting more than the demo's inlets leave between them makes its tubes meet at the collector.
  const header = { ...demo, settings: { ...demo.settings, wantedGap: inches(0.5) } };
  const { gaps } = headerClearances(header);

  test('say between what, and on which pieces', () => {
    const pair = gaps.find(({ kind }) => kind === 'pair');
    const self = gaps.find(({ kind }) => kind === 'self');
    if (!pair || !self) throw new Error('the demo has both');
    expect(gapWords(pair, header).between).toMatch(/^Primary \d and Primary \d$/);
    expect(gapWords(pair, header).where).toMatch(/^pieces \d+ and \d+/);
    expect(gapWords(self, header).between).toMatch(/^Primary \d and itself$/);
  });

  test('at a collector are not held against the one wanted', () => {
    const meeting = gaps.find((gap) => gap.kind === 'pair' && gap.isAtCollector);
    const other = gaps.find((gap) => gap.kind === 'self');
    if (!meeting || !other) throw new Error('the demo has both');
    expect(gapVerdict(meeting)).toBe('○ meet here, not judged');
    expect(gapVerdict({ ...other, isTight: true })).toBe('▲ tight');
    expect(gapVerdict({ ...other, isTight: false })).toBe('● OK');
  });

  test('have keys of their own', () => {
    expect(new Set(gaps.map((gap) => gapWords(gap, header).key)).size).toBe(gaps.length);
  });
});
