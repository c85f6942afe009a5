/** Joints that a step took apart, by hand: what comes off the tube when a piece is shortened, replaced, turned or moved. */

import { describe, expect, test } from 'vitest';
import { jointsOpened } from '../../../core/archive/joints-opened.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Header, Piece, PieceState } from '../../../core/header/header.ts';
import { inches } from '../../../core/units/length.ts';

const common = { state: 'tacked' as PieceState, locked: false, note: '' };
const straight = (id: string, length: number): Piece => ({ ...common, kind: 'straight', id, length: inches(length) });
const bend = (id: string, angleDeg: number, clockingDeg: number | null = 0): Piece => ({
  ...common,
  kind: 'bend',
  id,
  clr: inches(3),
  angleDeg,
  clockingDeg,
});

/** Port flange, straight, bend, straight, bend, straight: five joints, all tacked, and the slip at the end. */
const PIECES = [straight('s1', 4), bend('b1', 90), straight('s2', 6), bend('b2', 45, 180), straight('s3', 5)];

function headerOf(pieces: readonly Piece[]): Header {
  const demo = demoHeader('demo');
  const primary = { id: 'p', name: '1', tube: null, port: null, inletId: null, pieces };
  return { ...demo, primaries: [primary] };
}

const opened = (after: readonly Piece[], before: readonly Piece[] = PIECES) =>
  jointsOpened(headerOf(before), headerOf(after));
const changed = (id: string, to: Piece) => PIECES.map((piece) => (piece.id === id ? to : piece));
const states = (state: PieceState) => PIECES.map((piece) => ({ ...piece, state }));

describe('of five tacked joints', () => {
  test.each([
    ['nothing is changed', PIECES, 0],
    ['a straight in the middle is shortened: off at one end, sawn, and put back', changed('s2', straight('s2', 5)), 1],
    ['a straight in the middle is lengthened: another takes its place', changed('s2', straight('s2', 7)), 2],
    ['the last straight is shortened: its end slips', changed('s3', straight('s3', 4)), 0],
    ['the last straight is lengthened: its one joint', changed('s3', straight('s3', 6)), 1],
    ['a bend is trimmed', changed('b1', bend('b1', 80)), 1],
    ['a bend of another radius', changed('b1', { ...bend('b1', 90), clr: inches(4) } as Piece), 2],
    ['a bend is turned: one joint between it and the bend before', changed('b2', bend('b2', 45, 170)), 1],
    ['a bend is turned and trimmed: the one before it does for both', changed('b2', bend('b2', 40, 170)), 1],
    ['a clocking is written down for the first time', changed('b2', bend('b2', 45, 180)), 0],
    ['a clocking is written another way', changed('b2', bend('b2', 45, -180)), 0],
    ['a straight is let in', [...PIECES.slice(0, 2), straight('new', 1), ...PIECES.slice(2)], 1],
    ['a piece is put at the end', [...PIECES, straight('new', 1)], 0],
    ['a piece is put at the port', [straight('new', 1), ...PIECES], 1],
    ['a piece is taken out', PIECES.filter(({ id }) => id !== 's2'), 2],
    ['the last piece is taken off', PIECES.slice(0, -1), 1],
    ['a piece is marked cut again', changed('s2', { ...straight('s2', 6), state: 'cut' }), 2],
    ['a note is written', changed('s2', { ...straight('s2', 6), note: 'heavy tack' }), 0],
    ['the tacks are welded', states('welded'), 0],
    ['all of it comes apart', states('cut'), 5],
  ])('%s', (_what, after, count) => {
    expect(opened(after)).toBe(count);
  });
});

test('what is only planned or cut has no joint that could open', () => {
  expect(opened([straight('s1', 9)], states('cut'))).toBe(0);
});

test('welded joints count as tacked ones do', () => {
  expect(
    opened(
      states('welded').filter(({ id }) => id !== 'b1'),
      states('welded'),
    ),
  ).toBe(2);
});

test('a primary that is scrapped as a whole, or new, opens nothing', () => {
  const [before, without] = [headerOf(PIECES), { ...headerOf([]), primaries: [] }];
  expect(jointsOpened(before, without)).toBe(0);
  expect(jointsOpened(without, before)).toBe(0);
});
