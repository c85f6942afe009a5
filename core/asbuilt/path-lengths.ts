/** How long a primary is along each of the ways in which it can be measured, and what a reading comes to. */

import { type Header, type Piece, type Primary, type Tube, tubeOf } from '../header/header.ts';
import type { MeasureKind, Measurement, Volume } from '../header/measured.ts';
import { outsideArcMm } from '../length/bend-arcs.ts';
import { heelMm } from '../length/pie-cut.ts';
import { asWeldedLength, pieceLength } from '../length/piece-length.ts';
import { assertNever } from '../result.ts';
import { MM_PER_INCH, mmOf } from '../units/length.ts';

/** Along the outside of a piece, mm: its length, its outside arc, or its pies along their heels. */
export function outsideLengthMm(piece: Piece, odMm: number): number {
  switch (piece.kind) {
    case 'straight':
      return mmOf(piece.length);
    case 'bend':
      return outsideArcMm(mmOf(piece.clr), odMm, piece.angleDeg);
    case 'pieCut':
      return piece.pies * heelMm({ clrMm: mmOf(piece.clr), angleDeg: piece.angleDeg, pies: piece.pies }, odMm);
    default:
      return assertNever(piece);
  }
}

/**
 * Length of a primary along the way that a method follows, as welded, mm. A tape on the outside is carried square round the
 * tube from one bend to the next, which adds nothing; what fills the tube has the length of its centreline (Pappus).
 */
export function lengthAlong(header: Header, primary: Primary, kind: MeasureKind): number {
  const odMm = mmOf(tubeOf(header, primary).od);
  const lengths = primary.pieces.map((piece) =>
    kind === 'outsideTape' ? outsideLengthMm(piece, odMm) : pieceLength(piece),
  );
  return asWeldedLength(lengths, mmOf(header.settings.weldShrinkage));
}

const MM3_PER_ML = 1000;

export function cubicMmOf({ value, unit }: Volume): number {
  return value * (unit === 'ml' ? MM3_PER_ML : MM_PER_INCH ** 3);
}

/** Inside diameter of a tube, mm. */
export function boreMm({ od, wall }: Tube): number {
  return mmOf(od) - 2 * mmOf(wall);
}

/** Area of the bore of a tube, mm2. */
export function boreAreaMm2(tube: Tube): number {
  return (Math.PI / 4) * boreMm(tube) ** 2;
}

/** Smaller tube is made to half the tolerance of larger. */
const SMALL_OD_MM = 38.1;

/**
 * How far the area of a tube's bore may be out, as a share of it: OD within 0.25 mm (0.13 below 38.1 mm) and wall within 10 %,
 * independent of each other. Source: ASTM A269, stainless tube.
 */
export function boreAreaWithin(tube: Tube): number {
  const odWithinMm = mmOf(tube.od) < SMALL_OD_MM ? 0.13 : 0.25;
  return (2 * Math.hypot(odWithinMm, 2 * 0.1 * mmOf(tube.wall))) / boreMm(tube);
}

/** A reading as the length along its own way, and how far it may be out either way; mm. */
export interface ReadLength {
  readonly lengthMm: number;
  readonly withinMm: number;
}

export function readLength(reading: Measurement, tube: Tube): ReadLength {
  if (reading.kind !== 'filling') return { lengthMm: mmOf(reading.length), withinMm: mmOf(reading.within) };
  const areaMm2 = boreAreaMm2(tube);
  const lengthMm = cubicMmOf(reading.volume) / areaMm2;
  const withinMm = Math.hypot(cubicMmOf(reading.within) / areaMm2, boreAreaWithin(tube) * lengthMm);
  return { lengthMm, withinMm };
}
