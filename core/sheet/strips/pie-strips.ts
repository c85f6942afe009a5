/** Strips for the pies of a pie-cut bend: a whole pie with a saw line at both ends, and a half pie for the two ends of the bend. */

import { cutBackMm, heelMm, type PieCutMm, pieChordMm, sawAngleDeg, throatMm } from '../../length/pie-cut.ts';
import { failure, type Result, success } from '../../result.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { StripProblem } from '../sheet-problem.ts';
import { quarterLines, SLEEVE_MM } from './quarter-lines.ts';
import { sampleCurve } from './sample-curve.ts';
import { at, type Strip, type StripLabel, type StripPoint, straightLine } from './strip.ts';

export interface PieStripsAsked {
  readonly bend: PieCutMm;
  readonly odMm: number;
  /** `2-5`: where the bend stands. */
  readonly mark: string;
}

/**
 * How far a mitre runs ahead of the centreline on the outside of the tube, mm: `(OD/2) tan(t) cos(turn)`, turn from the heel.
 * Source: the development of a cylinder cut by a plane is a cosine (Layout Procedures for Metals; cut-the-knot, unfolding).
 */
export function mitreMm(bend: PieCutMm, odMm: number, turnRad: number): number {
  return cutBackMm(bend, odMm) * Math.cos(turnRad);
}

/** A whole pie where the bend has one, and a half pie. The heel is in the middle, so that the seam lies on the short side. */
export function pieStrips(asked: PieStripsAsked, style: LengthStyle): Result<readonly Strip[], StripProblem> {
  const { bend, odMm } = asked;
  const crossMm = throatMm(bend, odMm);
  // One pie is two halves, which cannot cross each other.
  if (bend.pies > 1 && crossMm <= 0) return failure({ kind: 'piesCross', throatMm: crossMm });
  const half = halfPie(asked, style);
  return success(bend.pies > 1 ? [wholePie(asked, style), half] : [half]);
}

function mitreCurve({ bend, odMm }: PieStripsAsked, middleMm: number, way: 1 | -1): readonly StripPoint[] {
  return sampleCurve(
    // From the throat over the heel to the throat.
    (turnRad) => at((odMm / 2) * turnRad, middleMm + way * mitreMm(bend, odMm, turnRad - Math.PI)),
    [0, 2 * Math.PI],
  );
}

function wholePie(asked: PieStripsAsked, style: LengthStyle): Strip {
  const { bend, odMm, mark } = asked;
  const roundMm = Math.PI * odMm;
  const backMm = cutBackMm(bend, odMm);
  const heightMm = heelMm(bend, odMm);
  const upper = mitreCurve(asked, backMm, -1);
  const lower = mitreCurve(asked, heightMm - backMm, 1);
  const ends = [backMm * 2, heightMm - 2 * backMm] as const;
  return {
    name: `Pie of ${mark}`,
    facts: [
      `${bend.pies - 1} whole ${bend.pies === 2 ? 'pie' : 'pies'} of this shape: ${formatLength(heightMm, style)} at the heel, ${formatLength(throatMm(bend, odMm), style)} at the throat, ${formatLength(pieChordMm(bend), style)} in the middle.`,
      sawFact(bend),
    ],
    widthMm: roundMm,
    heightMm,
    lines: [
      { use: 'saw', points: upper },
      { use: 'saw', points: lower },
      straightLine('edge', at(0, ends[0]), at(0, ends[1])),
      straightLine('edge', at(roundMm, ends[0]), at(roundMm, ends[1])),
      straightLine('mark', at(roundMm / 2, 0), at(roundMm / 2, heightMm)),
      straightLine('guide', at(roundMm / 4, backMm), at(roundMm / 4, heightMm - backMm)),
      straightLine('guide', at((3 * roundMm) / 4, backMm), at((3 * roundMm) / 4, heightMm - backMm)),
    ],
    labels: heelLabels(roundMm, heightMm / 2),
  };
}

function halfPie(asked: PieStripsAsked, style: LengthStyle): Strip {
  const { bend, odMm, mark } = asked;
  const roundMm = Math.PI * odMm;
  const backMm = cutBackMm(bend, odMm);
  const halfMm = pieChordMm(bend) / 2;
  const saw = mitreCurve(asked, backMm, -1);
  // The foot is the square end of the pie where it is long enough to hold the paper; else paper goes on over the next piece.
  const heightMm = backMm + Math.max(halfMm, SLEEVE_MM);
  const squareMm = backMm + halfMm;
  return {
    name: `Half pie of ${mark}`,
    facts: [
      `Two half pies, at the ends of the bend: from the square line ${formatLength(halfMm, style)} in the middle, ${formatLength(halfMm + backMm, style)} at the heel.`,
      sawFact(bend),
    ],
    widthMm: roundMm,
    heightMm,
    lines: [
      { use: 'saw', points: saw },
      straightLine('edge', at(0, 2 * backMm), at(0, heightMm)),
      straightLine('edge', at(0, heightMm), at(roundMm, heightMm)),
      straightLine('edge', at(roundMm, heightMm), at(roundMm, 2 * backMm)),
      straightLine('saw', at(0, squareMm), at(roundMm, squareMm)),
      ...quarterLines(roundMm, saw, heightMm),
    ],
    labels: heelLabels(roundMm, Math.min(squareMm, heightMm) - 2),
  };
}

function sawFact(bend: PieCutMm): string {
  return `Saw set to ${formatAngle(sawAngleDeg(bend))}; turn the tube half round between cuts. Wrap the strip printed side out, its seam on the inside of the bend.`;
}

function heelLabels(roundMm: number, yMm: number): readonly StripLabel[] {
  return [
    { at: at(roundMm / 2 + 1.5, yMm), text: 'heel', isUpright: false },
    { at: at(1.5, yMm), text: 'throat', isUpright: false },
  ];
}
