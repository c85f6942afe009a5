/** Random headers as a shop might have them in hand: several primaries, states, locks, slips, obstacles, odd pieces and all. */

import type { Header, Inlet, Piece, PieceState, Primary, Settings, Target } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import type { MoveOptions } from '../../../core/moves/question.ts';
import { poseOfFrame } from '../../../core/path/frame.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import type { LengthStyle } from '../../../core/units/length-style.ts';
import { poseAt, UP_Z } from '../path/made-primaries.ts';
import { FULL_SHELF } from './disturb.ts';
import { lengthOf, MOVE_SETTINGS, pick, shopPrimary } from './made-headers.ts';

const STATES: readonly PieceState[] = ['planned', 'cut', 'tacked', 'tacked', 'tacked', 'welded'];
const DISPLAYS: readonly LengthStyle[] = [
  { kind: 'mm', places: 0 },
  { kind: 'mm', places: 1 },
  { kind: 'mm', places: 2 },
  { kind: 'fraction', per: 8 },
  { kind: 'fraction', per: 16 },
  { kind: 'fraction', per: 32 },
  { kind: 'fraction', per: 64 },
  { kind: 'decimalInch', places: 2 },
];

export interface RandomCase {
  readonly header: Header;
  readonly primaryId: string;
  readonly options: MoveOptions;
}

export function randomCase(random: () => number): RandomCase {
  const count = 1 + Math.floor(random() * 3);
  const primaries = Array.from({ length: count }, (_, index) => randomPrimary(random, index));
  const inlets = primaries.map((primary, index) => randomInlet(random, primary, index));
  const header: Header = {
    ...newHeader({ id: 'header', name: 'Random' }),
    settings: randomSettings(random, primaries),
    primaries: primaries.map((primary, index) => ({
      ...primary,
      inletId: inlets[index] === null ? null : `inlet-${index}`,
    })),
    collectors: [{ id: 'collector', name: 'C', inlets: inlets.filter((inlet) => inlet !== null) }],
    obstacles:
      random() < 0.3
        ? [
            {
              kind: 'plane',
              id: 'floor',
              name: 'floor',
              at: poseAt({ x: 0, y: 0, z: -300 }, UP_Z, UP_Z).at,
              normal: UP_Z,
            },
          ]
        : [],
  };
  return { header, primaryId: `own-${Math.floor(random() * count)}`, options: randomOptions(random) };
}

function randomPrimary(random: () => number, index: number): Primary {
  const pieces = 1 + Math.floor(random() * 12);
  const made = shopPrimary({ pieces, random, states: STATES, lockedPart: 0.12 });
  const at = { x: 0, y: 90 * index, z: 0 };
  return {
    ...made,
    id: `own-${index}`,
    name: String(index + 1),
    port: random() < 0.9 ? poseAt(at, { x: 1, y: 0, z: 0 }, UP_Z) : null,
    pieces: made.pieces.map((piece, place) => oddPiece(random, { ...piece, id: `own-${index}-${place}` })),
  };
}

/** Now and then a pie-cut bend, a missing clocking, a zero straight or a length in inches. */
function oddPiece(random: () => number, piece: Piece): Piece {
  const die = random();
  if (piece.kind === 'straight') {
    if (die < 0.04) return { ...piece, length: millimetres(0) };
    return die < 0.3 ? { ...piece, length: inches(Math.max(1, Math.round(random() * 64)) / 16) } : piece;
  }
  if (piece.kind !== 'bend') return piece;
  if (die < 0.1) return { ...piece, kind: 'pieCut', pies: 3 + Math.floor(random() * 5) };
  return die < 0.13 ? { ...piece, clockingDeg: null } : piece;
}

/** Where the primary ends, or a little off it; sometimes not measured, sometimes none. */
function randomInlet(random: () => number, primary: Primary, index: number): Inlet | null {
  const path = tracePrimary(primary, primary.port);
  if (random() < 0.15) return null;
  const slipMm = pick(random, [0, 0, 3, 6]);
  const slip = { deeper: millimetres(slipMm), shallower: millimetres(slipMm) };
  const common = { id: `inlet-${index}`, name: String(index), slip };
  if (!path.ok || random() < 0.1) return { ...common, place: null };
  const pose = poseOfFrame(path.value.end, 'mm');
  const off = random() < 0.3 ? random() * 8 : 0;
  const at = { ...pose.at, z: millimetres(pose.at.z.value + off) };
  return { ...common, place: { kind: 'pose', pose: { ...pose, at } } };
}

function randomSettings(random: () => number, primaries: readonly Primary[]): Settings {
  const targets: readonly Target[] = [
    { kind: 'longest' },
    { kind: 'mean' },
    { kind: 'typed', length: millimetres(Math.max(20, lengthOf(pick(random, primaries)) + random() * 50 - 25)) },
    { kind: 'primary', primaryId: pick(random, primaries).id },
  ];
  const toleranceMm = pick(random, [0.5, 1.5, 3, 5]);
  return {
    ...MOVE_SETTINGS,
    display: pick(random, DISPLAYS),
    target: pick(random, targets),
    tolerance: { minus: millimetres(toleranceMm), plus: millimetres(toleranceMm) },
    weldShrinkage: millimetres(random() < 0.15 ? 0.4 : 0),
    closure: { gap: millimetres(pick(random, [0.3, 0.5, 1])), tiltDeg: pick(random, [0.1, 0.25, 0.5]) },
  };
}

function randomOptions(random: () => number): MoveOptions {
  return {
    ...(random() < 0.3 ? { stock: FULL_SHELF } : {}),
    ...(random() < 0.15 ? { maxJoints: 1 + Math.floor(random() * 4) } : {}),
    ...(random() < 0.15 ? { clearanceKeptMm: 6 } : {}),
  };
}
