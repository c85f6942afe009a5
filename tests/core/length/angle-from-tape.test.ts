/** Angles of odd bends from tape measures. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  angleFromChord,
  angleFromInsideArc,
  angleFromOutsideArc,
  bendFromChordAndHeight,
} from '../../../core/length/angle-from-tape.ts';
import { chordMm, gainMm, heightMm, insideArcMm, outsideArcMm, setbackMm } from '../../../core/length/bend-arcs.ts';
import { describeLengthProblem } from '../../../core/length/describe-length-problem.ts';
import type { Result } from '../../../core/result.ts';
import { expectWithinDeg, expectWithinRelative } from '../../tolerance.ts';

const RUNS = { numRuns: 2000 };

function read<Value, Trouble>(result: Result<Value, Trouble>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

const clr = fc.double({ min: 20, max: 500, noNaN: true });
/** Part of the CLR that the tube's radius takes. */
const part = fc.double({ min: 0.05, max: 0.9, noNaN: true });
const angle = fc.double({ min: 0.01, max: 360, noNaN: true });

describe('the angle comes back from what a tape reads', () => {
  test('along the outside and along the inside, up to a full turn', () => {
    fc.assert(
      fc.property(clr, part, angle, (clrMm, ratio, angleDeg) => {
        const odMm = 2 * clrMm * ratio;
        const outside = angleFromOutsideArc({ clrMm, odMm, arcMm: outsideArcMm(clrMm, odMm, angleDeg) });
        const inside = angleFromInsideArc({ clrMm, odMm, arcMm: insideArcMm(clrMm, odMm, angleDeg) });
        expectWithinDeg(read(outside), angleDeg, 1e-9);
        expectWithinDeg(read(inside), angleDeg, 1e-9);
      }),
      RUNS,
    );
  });

  test('across the ends, up to half a turn; beyond it the smaller of the two bends is given', () => {
    fc.assert(
      fc.property(clr, angle, (clrMm, angleDeg) => {
        const found = read(angleFromChord({ clrMm, chordMm: chordMm({ clrMm, angleDeg }) || 1e-300 }));
        // The chord is flat about 180 degrees: there the last digit of the chord is worth up to 1e-6 degrees.
        expectWithinDeg(found, Math.min(angleDeg, 360 - angleDeg), 3e-6);
      }),
      RUNS,
    );
  });

  test('CLR and angle from chord and height, up to nearly a full turn', () => {
    fc.assert(
      fc.property(clr, fc.double({ min: 0.5, max: 350, noNaN: true }), (clrMm, angleDeg) => {
        const shape = { clrMm, angleDeg };
        const found = read(bendFromChordAndHeight({ chordMm: chordMm(shape), heightMm: heightMm(shape) }));
        expectWithinRelative(found.clrMm, clrMm, 1e-9);
        expectWithinDeg(found.angleDeg, angleDeg, 1e-9);
      }),
      RUNS,
    );
  });

  test('from a millionth to a million times the size', () => {
    for (const factor of [1e-6, 1, 1e6]) {
      // The outside runs at 76.2 + 22.225 = 98.425 mm; a sixth of a turn of that is 98.425 pi / 3.
      const tape = { clrMm: 76.2 * factor, odMm: 44.45 * factor, arcMm: (98.425 * factor * Math.PI) / 3 };
      expectWithinDeg(read(angleFromOutsideArc(tape)), 60, 1e-12);
      expectWithinDeg(read(angleFromChord({ clrMm: 76.2 * factor, chordMm: 76.2 * factor })), 60, 1e-12);
      const found = read(bendFromChordAndHeight({ chordMm: 21 * factor, heightMm: 6 * factor }));
      expectWithinRelative(found.clrMm, 12.1875 * factor, 1e-14);
    }
  });

  test('a reading at its limit is read, though conversion put it a little over', () => {
    expect(read(angleFromChord({ clrMm: 76.2, chordMm: 152.4 * (1 + 1e-12) }))).toBe(180);
    expect(read(angleFromOutsideArc({ clrMm: 10, odMm: 4, arcMm: 2 * Math.PI * 12 * (1 + 1e-12) }))).toBe(360);
  });
});

describe('a tape that cannot be right is refused', () => {
  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('a measure of %d is not above zero', (bad) => {
    const kinds = [
      angleFromOutsideArc({ clrMm: bad, odMm: 1, arcMm: 1 }),
      angleFromOutsideArc({ clrMm: 1, odMm: bad, arcMm: 1 }),
      angleFromOutsideArc({ clrMm: 1, odMm: 1, arcMm: bad }),
      angleFromInsideArc({ clrMm: bad, odMm: 1, arcMm: 1 }),
      angleFromInsideArc({ clrMm: 1, odMm: 1, arcMm: bad }),
      angleFromChord({ clrMm: bad, chordMm: 1 }),
      angleFromChord({ clrMm: 1, chordMm: bad }),
      bendFromChordAndHeight({ chordMm: bad, heightMm: 1 }),
      bendFromChordAndHeight({ chordMm: 1, heightMm: bad }),
    ].map((result) => (result.ok ? 'taken' : result.problems.map(({ kind }) => kind)));
    expect(kinds).toEqual(kinds.map(() => ['measureNotPositive']));
  });

  test('all measures at fault are named, not only the first', () => {
    const result = angleFromOutsideArc({ clrMm: 0, odMm: -2, arcMm: 1 });
    expect(result.ok ? [] : result.problems).toEqual([
      { kind: 'measureNotPositive', measure: 'clr', valueMm: 0 },
      { kind: 'measureNotPositive', measure: 'od', valueMm: -2 },
    ]);
  });

  test('longer than the bend can have', () => {
    expect(angleFromChord({ clrMm: 76.2, chordMm: 153 })).toEqual({
      ok: false,
      problems: [{ kind: 'measureTooLong', measure: 'chord', valueMm: 153, limitMm: 152.4 }],
    });
    const past = angleFromOutsideArc({ clrMm: 10, odMm: 4, arcMm: 76 });
    expect(past.ok ? null : past.problems[0]?.kind).toBe('measureTooLong');
  });

  test('an inside arc where the tube leaves none', () => {
    const problem = { kind: 'noInsideArc', clrMm: 20, odMm: 40 } as const;
    expect(angleFromInsideArc({ clrMm: 20, odMm: 40, arcMm: 1 })).toEqual({ ok: false, problems: [problem] });
    expect(describeLengthProblem(problem)).toBe(
      'A tube of 40.0 mm (1.575") OD bent to 20.0 mm (0.787") CLR has no inside arc: check the CLR, or measure the outside.',
    );
  });

  test('the sentences say what was read and what would do', () => {
    expect(describeLengthProblem({ kind: 'measureTooLong', measure: 'chord', valueMm: 153, limitMm: 152.4 })).toBe(
      'The end-to-end chord of 153.0 mm (6.024") is longer than a bend of this CLR can have, 152.4 mm (6.000"): check it and the CLR.',
    );
    expect(describeLengthProblem({ kind: 'measureNotPositive', measure: 'insideArc', valueMm: Number.NaN })).toBe(
      'The arc along the inside is not a number: measure again and type a length above zero.',
    );
  });
});

describe('setback and gain', () => {
  test('have no corner to count from at 180 degrees and beyond', () => {
    expect(setbackMm({ clrMm: 76.2, angleDeg: 180 })).toBe(Number.POSITIVE_INFINITY);
    expect(gainMm({ clrMm: 76.2, angleDeg: 270 })).toBe(Number.POSITIVE_INFINITY);
    expectWithinRelative(setbackMm({ clrMm: 76.2, angleDeg: 90 }), 76.2, 1e-15);
  });
});
