/** The angle of an odd bend from what a tape measure reads on it. */

import { failure, type Result, success } from '../result.ts';
import { degreesOf } from '../units/angle.ts';
import type { BendShapeMm } from './bend-arcs.ts';
import type { BendMeasure, LengthProblem } from './length-problem.ts';

/** How far past its limit a measure still counts as at the limit, relative; covers rounding in conversion. */
const LIMIT_SLACK = 1e-9;

/**
 * Bend angle from the length along the outside: `arc / (CLR + OD/2)`.
 * @returns degrees, above 0 to 360; a problem for measures that are not positive or longer than a full turn
 */
export function angleFromOutsideArc(tape: {
  readonly clrMm: number;
  readonly odMm: number;
  readonly arcMm: number;
}): Result<number, LengthProblem> {
  const bad = notPositive([
    ['clr', tape.clrMm],
    ['od', tape.odMm],
    ['outsideArc', tape.arcMm],
  ]);
  return bad.length > 0 ? failure(...bad) : angleOfArc('outsideArc', tape.arcMm, tape.clrMm + tape.odMm / 2);
}

/**
 * Bend angle from the length along the inside: `arc / (CLR - OD/2)`. On a tight bend the inside is short, and a reading
 * that is out by a little puts the angle out by much more than on the outside.
 * @returns degrees, above 0 to 360; a problem also where the tube leaves no inside arc
 */
export function angleFromInsideArc(tape: {
  readonly clrMm: number;
  readonly odMm: number;
  readonly arcMm: number;
}): Result<number, LengthProblem> {
  const bad = notPositive([
    ['clr', tape.clrMm],
    ['od', tape.odMm],
    ['insideArc', tape.arcMm],
  ]);
  if (bad.length > 0) return failure(...bad);
  const radiusMm = tape.clrMm - tape.odMm / 2;
  if (radiusMm <= 0) return failure({ kind: 'noInsideArc', clrMm: tape.clrMm, odMm: tape.odMm });
  return angleOfArc('insideArc', tape.arcMm, radiusMm);
}

/**
 * Bend angle from the straight distance between the centres of its two ends: `2 asin(chord / 2 CLR)`.
 *
 * A chord alone fits two bends, `a` and `360 - a`; the smaller is given. Near 180 degrees the chord hardly changes,
 * so there the arcs are the better measure.
 * @returns degrees, above 0 to 180; a problem when the chord is longer than 2 CLR
 */
export function angleFromChord(tape: {
  readonly clrMm: number;
  readonly chordMm: number;
}): Result<number, LengthProblem> {
  const bad = notPositive([
    ['clr', tape.clrMm],
    ['chord', tape.chordMm],
  ]);
  if (bad.length > 0) return failure(...bad);
  const limitMm = 2 * tape.clrMm;
  if (tape.chordMm > limitMm * (1 + LIMIT_SLACK)) {
    return failure({ kind: 'measureTooLong', measure: 'chord', valueMm: tape.chordMm, limitMm });
  }
  return success(degreesOf(2 * Math.asin(Math.min(1, tape.chordMm / limitMm))));
}

/**
 * CLR and angle of an unknown bend from the chord and height of its centreline (lay it flat, measure centre to centre of
 * the ends and square up to the middle): `r = (c^2 + 4 h^2) / 8h`, `a = 4 atan(2h / c)`.
 * Source: Machinery's Handbook, 31st ed., p. 83, segments of circles.
 * @returns CLR in mm and the angle in degrees, above 0 and below 360
 */
export function bendFromChordAndHeight(tape: {
  readonly chordMm: number;
  readonly heightMm: number;
}): Result<BendShapeMm, LengthProblem> {
  const { chordMm, heightMm } = tape;
  const bad = notPositive([
    ['chord', chordMm],
    ['height', heightMm],
  ]);
  if (bad.length > 0) return failure(...bad);
  return success({
    // Halves of c^2 / 8h + h / 2, so that nothing is squared past overflow or below underflow.
    clrMm: (chordMm / heightMm) * (chordMm / 8) + heightMm / 2,
    angleDeg: degreesOf(4 * Math.atan2(2 * heightMm, chordMm)),
  });
}

function angleOfArc(measure: BendMeasure, arcMm: number, radiusMm: number): Result<number, LengthProblem> {
  const limitMm = 2 * Math.PI * radiusMm;
  if (arcMm > limitMm * (1 + LIMIT_SLACK)) {
    return failure({ kind: 'measureTooLong', measure, valueMm: arcMm, limitMm });
  }
  return success(Math.min(360, degreesOf(arcMm / radiusMm)));
}

function notPositive(measures: readonly (readonly [BendMeasure, number])[]): readonly LengthProblem[] {
  return measures
    .filter(([, valueMm]) => !(valueMm > 0 && Number.isFinite(valueMm)))
    .map(([measure, valueMm]) => ({ kind: 'measureNotPositive', measure, valueMm }));
}
