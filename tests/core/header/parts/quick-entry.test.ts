/** The entry line: what it takes, what it refuses, and that what it writes it reads. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type QuickContext, type QuickPiece, shapeOf } from '../../../../core/header/parts/quick-entry.ts';
import {
  describeProblem,
  formatQuickEntry,
  type Length,
  parseQuickEntry,
  pieceFromQuick,
} from '../../../../core/index.ts';
import { inches, millimetres } from '../../../../core/units/length.ts';
import { pieceArbitrary, positiveLengthArbitrary } from '../../../generators/headers.ts';

const context: QuickContext = { unit: 'in', clr: inches(3) };

const straight = (length: Length): QuickPiece => ({ kind: 'straight', length });
const bend = (angleDeg: number, clockingDeg: number | null = null, clr: Length = inches(3)): QuickPiece => ({
  kind: 'bend',
  clr,
  angleDeg,
  clockingDeg,
});

function read(text: string, given: QuickContext = context): readonly QuickPiece[] {
  const result = parseQuickEntry(text, given);
  if (!result.ok) throw new Error(result.problems.map(describeProblem).join(' '));
  return result.value;
}

describe('what is read', () => {
  test.each<[string, QuickPiece]>([
    ['2 1/4', straight(inches(2.25))],
    ['.5', straight(inches(0.5))],
    ['70mm', straight(millimetres(70))],
    ['s 2 1/4', straight(inches(2.25))],
    ['S70mm', straight(millimetres(70))],
    ['b90', bend(90)],
    ['B 90', bend(90)],
    ['b90\u00b0', bend(90)],
    ['b90 deg', bend(90)],
    ['b90 degrees 180', bend(90, 180)],
    ['b60 180', bend(60, 180)],
    ['b60 0', bend(60, 0)],
    ['b60 -45', bend(60, -45)],
    ['b60-45', bend(60, -45)],
    ['b60 - 45', bend(60, -45)],
    ['b60 \u221245', bend(60, -45)],
    ['b60+45', bend(60, 45)],
    ['b22.5 22.5', bend(22.5, 22.5)],
    ['b22 1/2', bend(22.5)],
    ['b22-1/2', bend(22.5)],
    ['b22 1/2 -22 1/2', bend(22.5, -22.5)],
    ['b360 -360', bend(360, -360)],
    ['b60 180 r4', bend(60, 180, inches(4))],
    ['b60r4', bend(60, null, inches(4))],
    ['b60 R 2 1/2', bend(60, null, inches(2.5))],
    ['b60 r100 mm', bend(60, null, millimetres(100))],
    ['p90x5', { kind: 'pieCut', clr: inches(3), angleDeg: 90, clockingDeg: null, pies: 5 }],
    ['P 90 X 5 180 r4', { kind: 'pieCut', clr: inches(4), angleDeg: 90, clockingDeg: 180, pies: 5 }],
    ['p90x5-45', { kind: 'pieCut', clr: inches(3), angleDeg: 90, clockingDeg: -45, pies: 5 }],
  ])('%s', (text, piece) => {
    expect(read(text)).toEqual([piece]);
  });

  test('several pieces stand in one line, and empty places between them do not count', () => {
    expect(read('b90; 2 1/4 ;; b45-90;')).toEqual([bend(90), straight(inches(2.25)), bend(45, -90)]);
  });

  test('= repeats the piece before, in the line or before it', () => {
    expect(read('b90 180; =; =')).toEqual([bend(90, 180), bend(90, 180), bend(90, 180)]);
    const previous = pieceFromQuick(straight(inches(2)), 'a');
    expect(read('=', { ...context, previous })).toEqual([straight(inches(2))]);
  });

  test('bare numbers are in the unit of the display, and the CLR is that of the header', () => {
    const metric: QuickContext = { unit: 'mm', clr: millimetres(76) };
    expect(read('70; b90; b90 r100', metric)).toEqual([
      straight(millimetres(70)),
      bend(90, null, millimetres(76)),
      bend(90, null, millimetres(100)),
    ]);
  });

  test('a piece from the line is tacked, not locked and has no note', () => {
    const piece = { id: 'a', state: 'tacked', locked: false, note: '' };
    expect(pieceFromQuick(bend(90), 'a')).toEqual({ ...bend(90), ...piece });
  });
});

describe('what is refused', () => {
  test.each<[string, object]>([
    ['', { reason: 'empty' }],
    [' ; ', { reason: 'empty' }],
    ['b', { reason: 'noAngle' }],
    ['b r3', { reason: 'noAngle' }],
    ['px5', { reason: 'noAngle' }],
    ['b0', { reason: 'angleOutOfRange', part: '0' }],
    ['b361', { reason: 'angleOutOfRange', part: '361' }],
    ['b-60', { reason: 'angleOutOfRange', part: '-60' }],
    ['b60 361', { reason: 'clockingOutOfRange', part: '361' }],
    ['b60 -360.5', { reason: 'clockingOutOfRange', part: '-360.5' }],
    ['b60 180 45', { reason: 'leftover', part: '45' }],
    ['b60 r0', { reason: 'clrNotAboveZero', part: '0' }],
    ['b60 r', { reason: 'noClr' }],
    ['b60 r-3', { kind: 'unreadableLength', reason: 'negative' }],
    ['b60 r3 180', { kind: 'unreadableLength' }],
    ['bx', { kind: 'unreadableAngle' }],
    ['b90 2,5', { kind: 'unreadableAngle', reason: 'decimalComma' }],
    ['p90', { reason: 'noPieCount', part: 'p90' }],
    ['p90x', { reason: 'noPieCount' }],
    ['p90x0', { reason: 'pieCountOutOfRange', part: '0' }],
    ['p90x91', { reason: 'pieCountOutOfRange', part: '91' }],
    ['p90x2.5', { reason: 'pieCountOutOfRange', part: '2.5' }],
    ['=', { reason: 'nothingToRepeat' }],
    ['= 2', { reason: 'leftover', part: '2' }],
    ['3 5/', { kind: 'unreadableLength', reason: 'noDenominator' }],
    ['x', { kind: 'unreadableLength' }],
    ['0', { reason: 'noStraight' }],
    ['0 mm', { reason: 'noStraight' }],
    ['s', { kind: 'unreadableLength', reason: 'empty' }],
    ['-2', { kind: 'unreadableLength', reason: 'negative' }],
    ['b90; b', { reason: 'noAngle' }],
  ])('%s', (text, problem) => {
    const result = parseQuickEntry(text, context);
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.problems[0]).toMatchObject(problem);
    expect(describeProblem(result.problems[0] as never)).toMatch(/^.{20,}\.$/);
  });
});

test('a decimal comma is read only where the context says so, and never one between thousands', () => {
  const comma: QuickContext = { unit: 'mm', clr: millimetres(76), decimalComma: true };
  expect(read('57,5; b22,5 -7,5 r76,2', comma)).toEqual([
    straight(millimetres(57.5)),
    bend(22.5, -7.5, millimetres(76.2)),
  ]);
  expect(parseQuickEntry('1.234,5', comma)).toMatchObject({ problems: [{ reason: 'decimalComma' }] });
  expect(parseQuickEntry('57,5', { ...comma, decimalComma: false })).toMatchObject({
    problems: [{ reason: 'decimalComma' }],
  });
});

test('a line of more than 2,000 characters or 500 pieces is refused', () => {
  expect(parseQuickEntry('1'.repeat(2001), context)).toMatchObject({ problems: [{ reason: 'tooLong' }] });
  expect(parseQuickEntry('1;'.repeat(501), context)).toMatchObject({ problems: [{ reason: 'tooManyPieces' }] });
  expect(read('1;'.repeat(500)).length).toBe(500);
});

test('the line that is written for a piece enters the same piece', () => {
  const units = fc.constantFrom('in' as const, 'mm' as const);
  fc.assert(
    fc.property(pieceArbitrary(), units, positiveLengthArbitrary, (piece, unit, clr) => {
      fc.pre(piece.kind !== 'straight' || piece.length.value > 0);
      const line = formatQuickEntry(piece, { unit, clr });
      expect(read(line, { unit, clr })).toEqual([shapeOf(piece)]);
    }),
    { numRuns: 3_000 },
  );
});
