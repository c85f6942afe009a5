/** Comparing two primaries on screen: the joint that is clocked wrong is named, and the button mends it. */

import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import { type Compared, mendEdit, reclockEdit } from '../../../core/edits/mend-edits.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Bend, Piece, Primary } from '../../../core/header/header.ts';
import { comparePrimaries } from '../../../core/index.ts';
import { mirrorPiece } from '../../../core/path/banks/mirror.ts';
import { explainsMiss } from '../../../core/path/ends/single-joint.ts';
import { inches } from '../../../core/units/length.ts';
import { differenceWords, turnWords } from '../../../renderer/shape/banks/compare-words.ts';

const STYLE = { kind: 'fraction', per: 16 } as const;
const demo = demoHeader('compare');

function primaryNamed(name: string): Primary {
  const primary = demo.primaries.find((candidate) => candidate.name === name);
  if (primary === undefined) throw new Error(name);
  return primary;
}

const reference = primaryNamed('1');

/** A copy under the ids of primary 2, changed piece by piece. */
function copyWith(change: (piece: Piece, index: number) => readonly Piece[]): Primary {
  const pieces = reference.pieces.flatMap(change).map((piece, index) => ({ ...piece, id: `copy-${index}` }));
  return { ...primaryNamed('2'), port: reference.port, pieces };
}

function compared(other: Primary): Compared {
  const comparison = comparePrimaries(reference, other);
  if (!comparison.ok) throw new Error(JSON.stringify(comparison.problems));
  return { reference, other, comparison: comparison.value };
}

const clocked = (by: number) => (piece: Piece, index: number) =>
  index === 3 && piece.kind === 'bend' ? [{ ...piece, clockingDeg: (piece.clockingDeg ?? 0) + by }] : [piece];

describe('a joint clocked 5 degrees wrong', () => {
  for (const isMirrored of [false, true]) {
    test(`is named and mended${isMirrored ? ' on the other hand' : ''}`, () => {
      const wrong = copyWith((piece, index) => {
        const [turned = piece] = clocked(5)(piece, index);
        return [isMirrored ? mirrorPiece(turned) : turned];
      });
      const finding = compared(wrong);
      const { bestJoint, closure, differences } = finding.comparison;
      if (bestJoint === null || closure === null) throw new Error('a joint is named');
      expect(finding.comparison.isMirrored).toBe(isMirrored);
      expect(explainsMiss(bestJoint, closure)).toBe(true);
      expect(differences.map((one) => differenceWords(one, STYLE))).toEqual([
        `Piece 4: clocking ${isMirrored ? '−' : '+'}5°`,
      ]);
      expect(turnWords(bestJoint, closure, STYLE)).toMatch(
        new RegExp(
          `^One joint explains it\\. Re-clock piece 4 by ${isMirrored ? '\\+' : '−'}5°: the primary then ends in the inlet, square`,
        ),
      );
      const edit = reclockEdit(wrong, bestJoint);
      const piece = edit?.kind === 'replacePiece' ? edit.piece : null;
      const right = reference.pieces[3] as Bend;
      expect(piece?.kind === 'bend' && piece.clockingDeg).toBe((isMirrored ? -1 : 1) * (right.clockingDeg ?? 0));
    });
  }
});

test('two faults are not blamed on one joint', () => {
  const wrong = copyWith((piece, index) => {
    if (index === 0 && piece.kind === 'straight') return [{ ...piece, length: inches(8) }];
    return clocked(5)(piece, index);
  });
  const { bestJoint, closure } = compared(wrong).comparison;
  if (bestJoint === null || closure === null) throw new Error('a joint helps');
  expect(explainsMiss(bestJoint, closure)).toBe(false);
  expect(turnWords(bestJoint, closure, STYLE)).toMatch(/^No one joint explains it/);
});

describe('making the same', () => {
  const cases: readonly (readonly [string, (piece: Piece, index: number) => readonly Piece[], RegExp])[] = [
    [
      'a length',
      (p, i) => (i === 4 && p.kind === 'straight' ? [{ ...p, length: inches(2.5) }] : [p]),
      /Piece 5: length \+5\/8/,
    ],
    ['an angle', (p, i) => (i === 3 && p.kind === 'bend' ? [{ ...p, angleDeg: 80 }] : [p]), /Piece 4: angle −10°/],
    ['a CLR', (p, i) => (i === 3 && p.kind === 'bend' ? [{ ...p, clr: inches(4) }] : [p]), /Piece 4: CLR \+1/],
    ['a clocking', clocked(-5), /Piece 4: clocking −5°/],
    ['an extra piece', (p, i) => (i === 2 ? [p, { ...p, id: 'extra' }] : [p]), /extra|length/],
    ['a missing piece', (p, i) => (i === 2 ? [] : [p]), /missing/],
    [
      'another kind',
      (p, i) => (i === 3 && p.kind === 'bend' ? [{ ...p, kind: 'pieCut', pies: 4 }] : [p]),
      /another kind/,
    ],
  ];
  test.each(cases)('%s leaves nothing that differs', (_name, change, words) => {
    const other = copyWith(change);
    let header = { ...demo, primaries: [reference, other] };
    const before = compared(other);
    expect(before.comparison.differences.map((one) => differenceWords(one, STYLE)).join('; ')).toMatch(words);
    for (let step = 0; step < 4; step += 1) {
      const now = header.primaries[1];
      if (now === undefined) throw new Error('the copy is there');
      const finding = compared(now);
      const [difference] = finding.comparison.differences;
      if (difference === undefined) break;
      const edit = mendEdit(finding, difference, `made-${step}`);
      const done =
        edit === null
          ? null
          : applyEdit({ ...header, settings: { ...header.settings, target: { kind: 'longest' } } }, edit);
      if (done?.ok !== true) throw new Error(JSON.stringify(done));
      header = { ...done.value.header, primaries: [...done.value.header.primaries] };
    }
    const mended = header.primaries[1];
    expect(mended && compared(mended).comparison.differences).toEqual([]);
  });
});
