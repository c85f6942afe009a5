/** Text typed into the cells of the grid, and what the cells are edited from. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Bend, Piece, Straight } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { suggestStock } from '../../../renderer/bench/entry/entry-suggestions.ts';
import { asKind } from '../../../renderer/bench/entry/pad-press.ts';
import { angleByTape } from '../../../renderer/bench/entry/tape-angle.tsx';
import { COLUMNS, editText, isEditable, readCell, textForKind } from '../../../renderer/bench/grid/piece-columns.ts';
import { DISPLAY_CHOICES, displayChoice, targetOf } from '../../../renderer/bench/panels/setting-choices.ts';

const CONTEXT = { unit: 'in', clr: inches(3), decimalComma: false } as const;
const COMMON = { state: 'welded', locked: true, note: 'keep' } as const;
const STRAIGHT: Straight = { kind: 'straight', id: 's', length: inches(2.25), ...COMMON };
const BEND: Bend = { kind: 'bend', id: 'b', clr: inches(4), angleDeg: 22.5, clockingDeg: -45, ...COMMON };
const PIE: Piece = {
  kind: 'pieCut',
  id: 'p',
  clr: millimetres(76),
  angleDeg: 90,
  clockingDeg: null,
  pies: 5,
  ...COMMON,
};

const read = (piece: Piece, column: (typeof COLUMNS)[number], text: string) =>
  readCell(piece, column, { text, context: CONTEXT });

describe('cells', () => {
  test('what a cell is edited from reads back to the same piece', () => {
    for (const piece of [STRAIGHT, BEND, PIE]) {
      for (const column of COLUMNS) {
        if (!isEditable(piece, column)) continue;
        expect(read(piece, column, editText(piece, column, CONTEXT))).toEqual({ ok: true, value: piece });
      }
    }
  });

  test('size is the length of a straight and the angle of a bend', () => {
    expect(read(STRAIGHT, 'size', '3 1/8')).toEqual({ ok: true, value: { ...STRAIGHT, length: inches(3.125) } });
    expect(read(BEND, 'size', '60')).toEqual({ ok: true, value: { ...BEND, angleDeg: 60 } });
  });

  test('an empty clocking is not recorded; an empty CLR is refused', () => {
    expect(read(BEND, 'clock', ' ')).toEqual({ ok: true, value: { ...BEND, clockingDeg: null } });
    expect(read(BEND, 'clr', '').ok).toBe(false);
  });

  test('the piece column takes the language of the entry line and keeps what it does not say', () => {
    expect(read(STRAIGHT, 'piece', 'p90x4 180')).toEqual({
      ok: true,
      value: { kind: 'pieCut', id: 's', clr: inches(3), angleDeg: 90, clockingDeg: 180, pies: 4, ...COMMON },
    });
  });

  test('the letter of a kind in the size changes the kind, and leaves a bend what it has', () => {
    expect(read(STRAIGHT, 'size', 'b90')).toEqual({
      ok: true,
      value: { kind: 'bend', id: 's', clr: inches(3), angleDeg: 90, clockingDeg: null, ...COMMON },
    });
    expect(read(BEND, 'size', 's4')).toEqual({
      ok: true,
      value: { kind: 'straight', id: 'b', length: inches(4), ...COMMON },
    });
    expect(read(BEND, 'size', 'b60')).toEqual({ ok: true, value: { ...BEND, angleDeg: 60 } });
    expect(read(BEND, 'size', 'p60x3')).toEqual({
      ok: true,
      value: { ...BEND, kind: 'pieCut', angleDeg: 60, pies: 3 },
    });
  });

  test.each([
    [STRAIGHT, 'bend', 'b|'],
    [STRAIGHT, 'pieCut', 'p|x'],
    [BEND, 'straight', 's|'],
    [BEND, 'pieCut', 'p22.5x| -45 r4'],
    [PIE, 'bend', 'b90 r76 mm|'],
  ] as const)('%o as a %s begins with %s', (piece, kind, wanted) => {
    const { text, caret } = textForKind(piece, kind, CONTEXT);
    expect(`${text.slice(0, caret)}|${text.slice(caret)}`).toBe(wanted);
  });

  test('a note is one line of text, whatever is pasted into it', () => {
    expect(readCell(STRAIGHT, 'note', { text: ' re-cut\n after\u202e tack ', context: CONTEXT })).toEqual({
      ok: true,
      value: { ...STRAIGHT, note: 're-cut after tack' },
    });
  });

  test('a decimal comma is read where the language writes one, and refused where it does not', () => {
    const german = { ...CONTEXT, decimalComma: true };
    expect(readCell(STRAIGHT, 'size', { text: '2,5', context: german })).toEqual({
      ok: true,
      value: { ...STRAIGHT, length: inches(2.5) },
    });
    expect(read(STRAIGHT, 'size', '2,5').ok).toBe(false);
  });

  test.each([
    [STRAIGHT, 'size', '0'],
    [STRAIGHT, 'piece', '2; b90'],
    [STRAIGHT, 'size', '3 5/'],
    [STRAIGHT, 'size', '-2'],
    [BEND, 'size', '0'],
    [BEND, 'size', '400'],
    [BEND, 'clr', '0'],
    [BEND, 'clock', '999'],
    [BEND, 'piece', 'q'],
  ] as const)('%o %s refuses %s', (piece, column, text) => {
    const result = read(piece, column, text);
    expect(result.ok).toBe(false);
    expect(!result.ok && result.problems.length).toBeGreaterThan(0);
  });

  test('number, run and state take no text, nor do CLR and clock of a straight', () => {
    expect(COLUMNS.filter((column) => !isEditable(STRAIGHT, column))).toEqual([
      'number',
      'clr',
      'clock',
      'run',
      'state',
    ]);
    expect(COLUMNS.filter((column) => !isEditable(BEND, column))).toEqual(['number', 'run', 'state']);
  });
});

describe('the entry line offers what the shelf has', () => {
  const shelf = {
    clrs: [inches(2.625), inches(3), inches(4)],
    anglesDeg: [22.5, 30, 45, 90, 180],
    legs: [inches(2.25), inches(4), millimetres(42)],
  };
  const labels = (text: string) => suggestStock(text, shelf, 'in').map(({ label }) => label);

  test('CLRs after r of a bend, in the order of the shelf', () => {
    expect(labels('b90 r')).toEqual(['r2 5/8', 'r3', 'r4']);
    expect(labels('2; b45 180 r')).toEqual(['r2 5/8', 'r3', 'r4']);
    expect(labels('b90 r2')).toEqual(['r2 5/8']);
    expect(suggestStock('b90 180 r', shelf, 'in')[1]?.text).toBe('b90 180 r3');
  });

  test('angles after b, and legs where a straight is begun', () => {
    expect(labels('b')).toEqual(['b22.5', 'b30', 'b45', 'b90', 'b180']);
    expect(labels('2; b4')).toEqual(['b45']);
    expect(suggestStock('2; b4', shelf, 'in')[0]?.text).toBe('2; b45');
    expect(labels('2')).toEqual(['2 1/4']);
    expect(suggestStock('b90; 42', shelf, 'in')).toEqual([
      { text: 'b90; 42 mm', label: '42 mm', where: 'leg on the shelf' },
    ]);
  });

  test('not elsewhere, and not when it is typed already', () => {
    expect(labels('')).toEqual([]);
    expect(labels('b90')).toEqual([]);
    expect(labels('b90 18')).toEqual([]);
    expect(labels('4')).toEqual([]);
    expect(labels('b90 r3')).toEqual([]);
    expect(labels('b90 r7')).toEqual([]);
  });
});

describe('the keypad', () => {
  test('Bend and Straight turn what is typed into one, and back', () => {
    expect(asKind('90', 'bend', '')).toBe('b90');
    expect(asKind('', 'bend', '')).toBe('b');
    expect(asKind('b90', 'bend', '')).toBe('b90');
    expect(asKind('b90', 'straight', '')).toBe('90');
    expect(asKind('2; 45', 'bend', '')).toBe('2; b45');
    expect(asKind('b4', 'straight', 's')).toBe('s4');
  });
});

describe('angle by tape', () => {
  const bend = { unit: 'in', clr: inches(3), od: inches(2) } as const;

  test('a quarter turn of CLR 3, OD 2: outside arc 2 pi, inside arc pi, chord 3 sqrt 2', () => {
    const angle = (way: 'outsideArc' | 'insideArc' | 'chord', value: number) =>
      angleByTape({ ...bend, way, text: value.toFixed(4) });
    expect(angle('outsideArc', 2 * Math.PI)).toEqual({ ok: true, value: 90 });
    expect(angle('insideArc', Math.PI)).toEqual({ ok: true, value: 90 });
    expect(angle('chord', 3 * Math.SQRT2)).toEqual({ ok: true, value: 90 });
  });

  test('what cannot be is a problem', () => {
    expect(angleByTape({ ...bend, way: 'chord', text: '7' }).ok).toBe(false);
    expect(angleByTape({ ...bend, way: 'outsideArc', text: '' }).ok).toBe(false);
    expect(angleByTape({ ...bend, way: 'insideArc', text: '0' }).ok).toBe(false);
  });
});

describe('settings', () => {
  test('each way of showing lengths is one choice', () => {
    for (const choice of DISPLAY_CHOICES) expect(displayChoice(choice.style)).toBe(choice.id);
  });

  test('a typed target begins at the target in force, to the sixteenth', () => {
    const header = demoHeader('demo');
    const report = matchHeader(header);
    const target = targetOf('typed', { report, unit: 'in', before: { kind: 'longest' } });
    if (target.kind !== 'typed') throw new Error('a typed target was asked for');
    expect(Math.abs(target.length.value * 25.4 - (report.targetMm ?? 0))).toBeLessThanOrEqual(25.4 / 32);
    expect(Number.isInteger(target.length.value * 16)).toBe(true);
    expect(targetOf('primary:p2', { report, unit: 'in', before: { kind: 'mean' } })).toEqual({
      kind: 'primary',
      primaryId: 'p2',
    });
  });
});
