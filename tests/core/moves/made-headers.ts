/** Headers for the tests of moves: built at random from a seed, as a shop would build them, and disturbed in known ways. */

import type {
  Bend,
  Header,
  Inlet,
  Piece,
  PieceState,
  Primary,
  Settings,
  Straight,
} from '../../../core/header/header.ts';
import { DEFAULT_SETTINGS, newHeader } from '../../../core/header/new-header.ts';
import { primaryLength } from '../../../core/length/piece-length.ts';
import { poseOfFrame } from '../../../core/path/frame.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { millimetres } from '../../../core/units/length.ts';
import { ALONG_X, foundValue, primaryOf } from '../path/made-primaries.ts';

export const MOVE_SETTINGS: Settings = {
  ...DEFAULT_SETTINGS,
  display: { kind: 'mm', places: 1 },
  tolerance: { minus: millimetres(3), plus: millimetres(3) },
  shortestStraight: millimetres(12),
};

export interface Shape {
  readonly pieces: number;
  readonly random: () => number;
  /** Two bends next to each other now and then; yes unless said otherwise. */
  readonly withBareJoints?: boolean;
  readonly states?: readonly PieceState[];
  /** Part of the pieces that are locked. */
  readonly lockedPart?: number;
}

export function pick<Item>(random: () => number, items: readonly Item[]): Item {
  const item = items[Math.floor(random() * items.length)];
  if (item === undefined) throw new Error('Nothing to pick from');
  return item;
}

const CLRS_MM = [60, 76, 90];
const ANGLES_DEG = [15, 22.5, 30, 45, 45, 60, 75, 90, 90];

/** Straights on half millimetres and bends on half degrees, by turns; what a shop could have cut. */
export function shopPrimary(shape: Shape): Primary {
  const { random } = shape;
  const pieces: Piece[] = [];
  const common = (): Pick<Straight, 'id' | 'state' | 'locked' | 'note'> => ({
    id: `p${pieces.length}`,
    state: pick(random, shape.states ?? ['tacked']),
    locked: random() < (shape.lockedPart ?? 0),
    note: '',
  });
  while (pieces.length < shape.pieces) {
    const afterBend = pieces.at(-1)?.kind === 'bend';
    if (afterBend && (shape.withBareJoints === false || random() < 0.85)) pieces.push(shopStraight(random, common()));
    else if (pieces.length === 0 && random() < 0.7) pieces.push(shopStraight(random, common()));
    else pieces.push(shopBend(random, common()));
  }
  return primaryOf(pieces, { id: 'own', name: '1', port: ALONG_X });
}

type Common = Pick<Straight, 'id' | 'state' | 'locked' | 'note'>;

function shopStraight(random: () => number, common: Common): Straight {
  return { kind: 'straight', ...common, length: millimetres((30 + Math.floor(random() * 220)) / 2) };
}

function shopBend(random: () => number, common: Common): Bend {
  const clockingDeg = random() < 0.4 ? 90 * Math.floor(random() * 4) - 180 : Math.floor(random() * 720) / 2 - 180;
  return {
    kind: 'bend',
    ...common,
    clr: millimetres(pick(random, CLRS_MM)),
    angleDeg: pick(random, ANGLES_DEG),
    clockingDeg,
  };
}

export interface Fit {
  /** Length that the primary should have, mm. */
  readonly targetMm: number;
  /** Whose end the inlet is at; by default the primary's own. */
  readonly fitted?: Primary;
  readonly slipMm?: number;
  readonly settings?: Partial<Settings>;
}

/** A header with this one primary, its inlet where `fitted` ends, and a typed target. */
export function fittedHeader(primary: Primary, { targetMm, fitted = primary, slipMm = 0, settings = {} }: Fit): Header {
  const end = foundValue(tracePrimary(fitted, fitted.port)).end;
  const slip = { deeper: millimetres(slipMm), shallower: millimetres(slipMm) };
  const inlet: Inlet = { id: 'inlet', name: 'A', place: { kind: 'pose', pose: poseOfFrame(end, 'mm') }, slip };
  return {
    ...newHeader({ id: 'header', name: 'Moves' }),
    settings: { ...MOVE_SETTINGS, target: { kind: 'typed', length: millimetres(targetMm) }, ...settings },
    primaries: [{ ...primary, inletId: 'inlet' }],
    collectors: [{ id: 'collector', name: 'C', inlets: [inlet] }],
  };
}

export function lengthOf(primary: Primary): number {
  return primaryLength(primary, { shrinkageMm: 0 });
}
