/** How the end of a primary, and its length, move with each figure of each piece. */

import type { Bend, PieCutBend, Primary } from '../header/header.ts';
import type { ShopTolerances } from '../header/measured.ts';
import { bendCentre, binormalOf, clockBy, type Frame } from '../path/frame.ts';
import type { TubePath } from '../path/trace-primary.ts';
import { cross, ORIGIN, subtract, type Vector } from '../path/vector.ts';
import { radiansOf } from '../units/angle.ts';
import { mmOf } from '../units/length.ts';
import { deviationOfLimit } from './shop-tolerances.ts';

export type FigureKind = 'length' | 'angle' | 'clocking';

/** Per mm for a length, per radian for an angle or a clocking; at the figures as they stand. */
export interface FigureMotion {
  readonly pieceIndex: number;
  readonly figure: FigureKind;
  /** Of the end's place, mm; zero where the path is not known. */
  readonly shift: Vector;
  /** Of the end's direction. */
  readonly turn: Vector;
  /** Of the length along the outside and along the centreline, mm. */
  readonly outsidePer: number;
  readonly centrelinePer: number;
}

/**
 * The motions of all figures of a primary, piece by piece. Exact derivatives: an angle turns all after it about the centre of
 * its bend, a clocking about the tube at its joint, a length slides it along. Linear in the pieces.
 * @param path null where it is not known: lengths are told all the same
 */
export function figureMotions(primary: Primary, path: TubePath | null, odMm: number): readonly FigureMotion[] {
  return primary.pieces.flatMap((piece, pieceIndex): readonly FigureMotion[] => {
    const joint = path?.joints[pieceIndex] ?? null;
    if (piece.kind !== 'straight') return bendMotions(piece, pieceIndex, { joint, end: path?.end ?? null, odMm });
    const shift = joint?.tangent ?? ORIGIN;
    return [{ pieceIndex, figure: 'length', shift, turn: ORIGIN, outsidePer: 1, centrelinePer: 1 }];
  });
}

interface Place {
  readonly joint: Frame | null;
  readonly end: Frame | null;
  readonly odMm: number;
}

function bendMotions(
  bend: Bend | PieCutBend,
  pieceIndex: number,
  { joint, end, odMm }: Place,
): readonly FigureMotion[] {
  const clrMm = mmOf(bend.clr);
  // The chords of pies grow by the square of the secant faster than the arc.
  const share = bend.kind === 'bend' ? 1 : 1 / Math.cos(radiansOf(bend.angleDeg) / (2 * bend.pies)) ** 2;
  const lengths = { outsidePer: (clrMm + odMm / 2) * share, centrelinePer: clrMm * share };
  const angle = { pieceIndex, figure: 'angle', ...lengths } as const;
  const clocking = { pieceIndex, figure: 'clocking', outsidePer: 0, centrelinePer: 0 } as const;
  if (joint === null || end === null) {
    const still = { shift: ORIGIN, turn: ORIGIN };
    return [
      { ...angle, ...still },
      { ...clocking, ...still },
    ];
  }
  const clocked = clockBy(joint, bend.clockingDeg ?? 0);
  return [
    { ...angle, ...turnAbout(binormalOf(clocked), bendCentre(clocked, clrMm), end) },
    { ...clocking, ...turnAbout(joint.tangent, joint.point, end) },
  ];
}

function turnAbout(axis: Vector, through: Vector, end: Frame): Pick<FigureMotion, 'shift' | 'turn'> {
  return { shift: cross(axis, subtract(end.point, through)), turn: cross(axis, end.tangent) };
}

/** How far the figure may be out, either way: mm for a length, radians for the others. */
export function limitOf(figure: FigureKind, tolerances: ShopTolerances): number {
  if (figure === 'length') return mmOf(tolerances.length);
  return radiansOf(figure === 'angle' ? tolerances.angleDeg : tolerances.clockingDeg);
}

/** As a standard deviation. */
export function deviationOf(figure: FigureKind, tolerances: ShopTolerances): number {
  return deviationOfLimit(limitOf(figure, tolerances));
}
