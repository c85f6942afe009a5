/** Finished primaries for the tests: made to their figures within a shop's tolerances, measured with scatter, and entered as they are. */

import type { Bend, Header, Inlet, Piece, Primary, Straight } from '../../../core/header/header.ts';
import type { Measurement, ShopTolerances } from '../../../core/header/measured.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { outsideArcMm } from '../../../core/length/bend-arcs.ts';
import { primaryLength } from '../../../core/length/piece-length.ts';
import { poseOfFrame } from '../../../core/path/frame.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { inches, type Length, millimetres, mmOf } from '../../../core/units/length.ts';
import { pick } from '../moves/made-headers.ts';
import { ALONG_X, foundValue, primaryOf } from '../path/made-primaries.ts';

export type Random = () => number;

/** Centreline radii that bends of 1 3/4 in are stocked at, inches: the list of a bend supplier. */
export const SHELF_CLRS_IN = [2, 2.5, 3, 4, 5, 6];
const CLRS_IN = [2.5, 3, 3, 4];
const ANGLES_DEG = [15, 22.5, 30, 45, 45, 60, 75, 90, 90];
const OD = inches(1.75);
const WALL = inches(0.065);

/** Straights in sixteenths or whole millimetres, and bends between them, 5 to 11 pieces. */
export function shopTube(random: Random): Primary {
  const count = 5 + Math.floor(random() * 7);
  const pieces: Piece[] = [];
  while (pieces.length < count) {
    const common = { id: `p${pieces.length}`, state: 'welded' as const, locked: false, note: '' };
    const isAfterBend = pieces.at(-1)?.kind === 'bend';
    const isStraight = isAfterBend ? random() < 0.85 : pieces.length === 0 && random() < 0.7;
    pieces.push(isStraight ? { kind: 'straight', ...common, length: shopLength(random) } : shopBend(random, common));
  }
  return primaryOf(pieces, { id: 'own', port: ALONG_X, inletId: 'inlet' });
}

function shopLength(random: Random): Length {
  const sixteenths = 12 + Math.floor(random() * 132);
  return random() < 0.7 ? inches(sixteenths / 16) : millimetres(20 + Math.floor(random() * 200));
}

function shopBend(random: Random, common: Pick<Bend, 'id' | 'state' | 'locked' | 'note'>): Bend {
  const clockingDeg = random() < 0.4 ? 90 * Math.floor(random() * 4) - 90 : Math.floor(random() * 720) / 2 - 180;
  return {
    kind: 'bend',
    ...common,
    clr: inches(pick(random, CLRS_IN)),
    angleDeg: pick(random, ANGLES_DEG),
    clockingDeg,
  };
}

/** Anywhere within a limit either way, all alike. */
export function within(limit: number, random: Random): number {
  return limit * (2 * random() - 1);
}

/** The tube as a shop makes it to these figures. */
export function madeTube(primary: Primary, tolerances: ShopTolerances, random: Random): Primary {
  const pieces = primary.pieces.map((piece): Piece => {
    if (piece.kind === 'straight') {
      const mm = Math.max(0, mmOf(piece.length) + within(mmOf(tolerances.length), random));
      return { ...piece, length: millimetres(mm) };
    }
    const angleDeg = piece.angleDeg + within(tolerances.angleDeg, random);
    return { ...piece, angleDeg, clockingDeg: (piece.clockingDeg ?? 0) + within(tolerances.clockingDeg, random) };
  });
  return { ...primary, pieces };
}

/** By hand, not by the program's own sums. */
function outsideMm({ pieces }: Primary): number {
  return pieces.reduce(
    (sum, piece) =>
      sum + (piece.kind === 'straight' ? mmOf(piece.length) : outsideArcMm(mmOf(piece.clr), mmOf(OD), piece.angleDeg)),
    0,
  );
}

const TAPE = inches(1 / 16);
const STRING = inches(1 / 8);
const FILL_ML = 5;

/** A tape along the outside always, and a string, what it holds, or both. */
export function readingsOf(made: Primary, random: Random): readonly Measurement[] {
  const centreMm = primaryLength(made, { shrinkageMm: 0 });
  const areaMm2 = (Math.PI / 4) * (mmOf(OD) - 2 * mmOf(WALL)) ** 2;
  const tape = millimetres(outsideMm(made) + within(mmOf(TAPE), random));
  const string = millimetres(centreMm + within(mmOf(STRING), random));
  const ml = (centreMm * areaMm2) / 1000 + within(FILL_ML, random);
  const others: readonly Measurement[] = [
    { kind: 'centreline', length: string, within: STRING },
    { kind: 'filling', volume: { value: ml, unit: 'ml' }, within: { value: FILL_ML, unit: 'ml' } },
  ];
  const chosen = pick(random, [[0], [1], [0, 1]]);
  return [{ kind: 'outsideTape', length: tape, within: TAPE }, ...others.filter((_, index) => chosen.includes(index))];
}

export interface FinishedTube {
  /** As its pieces are. */
  readonly right: Primary;
  readonly measured: readonly Measurement[];
  /** Where it ends, as the inlet was measured. */
  readonly inlet: Inlet;
  readonly tolerances: ShopTolerances;
}

const CLOSURE = { gap: millimetres(0.5), tiltDeg: 0.25 };

export function finishedTube(tolerances: ShopTolerances, madeWithin: ShopTolerances, random: Random): FinishedTube {
  const right = shopTube(random);
  const made = madeTube(right, madeWithin, random);
  const end = foundValue(tracePrimary(made, made.port)).end;
  const offMm = () => within(mmOf(CLOSURE.gap), random);
  const point = { x: end.point.x + offMm(), y: end.point.y + offMm(), z: end.point.z + offMm() };
  const slip = { deeper: millimetres(0), shallower: millimetres(0) };
  const place = { kind: 'pose', pose: poseOfFrame({ ...end, point }, 'mm') } as const;
  return { right, measured: readingsOf(made, random), inlet: { id: 'inlet', name: '1', place, slip }, tolerances };
}

/** The header with this tube entered as `entered`. */
export function headerWith({ measured, inlet, tolerances }: FinishedTube, entered: Primary): Header {
  const blank = newHeader({ id: 'header', name: 'As-built' });
  return {
    ...blank,
    settings: { ...blank.settings, tube: { material: '304', od: OD, wall: WALL }, closure: CLOSURE },
    primaries: [{ ...entered, measured }],
    collectors: [{ id: 'collector', name: 'C', inlets: [inlet] }],
    tolerances,
  };
}

/** Straights that touch are one; what is left is compared figure by figure. */
function joined(pieces: readonly Piece[]): readonly Piece[] {
  const out: Piece[] = [];
  for (const piece of pieces) {
    const last = out.at(-1);
    if (piece.kind === 'straight' && last?.kind === 'straight') {
      out[out.length - 1] = { ...last, length: millimetres(mmOf(last.length) + mmOf(piece.length)) };
    } else out.push(piece);
  }
  return out;
}

export interface Nearness {
  readonly mm: number;
  readonly deg: number;
}

/** Whether two lists of pieces make the same tube, piece by piece. */
export function isSameTube(one: Primary, other: Primary, near: Nearness): boolean {
  const [a, b] = [joined(one.pieces), joined(other.pieces)];
  return a.length === b.length && a.every((piece, index) => isSamePiece(piece, b[index], near));
}

function isSamePiece(one: Piece, other: Piece | undefined, near: Nearness): boolean {
  if (other === undefined || one.kind !== other.kind) return false;
  if (one.kind === 'straight') return Math.abs(mmOf(one.length) - mmOf((other as Straight).length)) <= near.mm;
  const bend = other as Bend;
  const turn = (one.clockingDeg ?? 0) - (bend.clockingDeg ?? 0);
  const isSameClocking = Math.abs(turn - 360 * Math.round(turn / 360)) <= near.deg;
  return isSameClocking && one.angleDeg === bend.angleDeg && Math.abs(mmOf(one.clr) - mmOf(bend.clr)) < 0.01;
}
