/** Known disturbances of a fitted primary, and what undoing them costs by a count of its own. */

import type { Piece, Primary } from '../../../core/header/header.ts';
import { pieceLength } from '../../../core/length/piece-length.ts';
import type { StockItem } from '../../../core/stock/stock-item.ts';
import { inches, millimetres, mmOf } from '../../../core/units/length.ts';
import { type Act, jointsByHand } from './joints-by-hand.ts';
import { pick } from './made-headers.ts';

export type DisturbanceKind = 'length' | 'clocking' | 'angle' | 'clr';

export interface Disturbed {
  readonly primary: Primary;
  readonly kinds: readonly DisturbanceKind[];
  readonly undo: UndoCost;
}

export interface UndoCost {
  readonly joints: number;
  readonly cuts: number;
  readonly adjusted: number;
  readonly tubeMm: number;
}

const SHELF_CLRS_MM = [60, 76, 90];

/** U-bends of every CLR that the made primaries use, and a long straight. */
export const FULL_SHELF: readonly StockItem[] = [
  ...SHELF_CLRS_MM.map(
    (clrMm): StockItem => ({
      kind: 'bend',
      id: `shelf-${clrMm}`,
      material: '304 stainless',
      od: inches(1.75),
      wall: inches(0.065),
      count: 4,
      note: '',
      clr: millimetres(clrMm),
      angleDeg: 180,
      legs: [millimetres(0), millimetres(0)],
    }),
  ),
  {
    kind: 'straight',
    id: 'shelf-straight',
    material: '304 stainless',
    od: inches(1.75),
    wall: inches(0.065),
    count: 3,
    note: '',
    length: millimetres(3000),
  },
];

/** Changes `count` quantities of different pieces, each of one of `kinds`; every piece is taken to be tacked. */
export function disturb(
  primary: Primary,
  count: number,
  { random, kinds }: { readonly random: () => number; readonly kinds: readonly DisturbanceKind[] },
): Disturbed {
  const pieces = [...primary.pieces];
  const touched = new Map<number, DisturbanceKind>();
  for (let tries = 0; touched.size < count && tries < 200; tries += 1) {
    const at = Math.floor(random() * pieces.length);
    const piece = pieces[at];
    const kind = pick(random, kinds);
    if (piece === undefined || touched.has(at)) continue;
    const changed = changedBy(kind, piece, random);
    if (changed === null) continue;
    pieces[at] = changed;
    touched.set(at, kind);
  }
  return {
    primary: { ...primary, pieces },
    kinds: [...touched.values()],
    undo: undoCost(primary, pieces, touched),
  };
}

function changedBy(kind: DisturbanceKind, piece: Piece, random: () => number): Piece | null {
  const sign = random() < 0.5 ? -1 : 1;
  if (piece.kind === 'straight') {
    if (kind !== 'length') return null;
    const toMm = mmOf(piece.length) + (sign * (6 + Math.floor(random() * 60))) / 2;
    return toMm < 12 ? null : { ...piece, length: millimetres(toMm) };
  }
  const turnDeg = (sign * (4 + Math.floor(random() * 36))) / 2;
  if (kind === 'clocking') return { ...piece, clockingDeg: (piece.clockingDeg ?? 0) + turnDeg };
  if (kind === 'angle') {
    const angleDeg = piece.angleDeg + turnDeg;
    return angleDeg < 5 || angleDeg > 170 ? null : { ...piece, angleDeg };
  }
  if (kind !== 'clr') return null;
  const clrMm = pick(
    random,
    SHELF_CLRS_MM.filter((mm) => mm !== mmOf(piece.clr)),
  );
  return { ...piece, clr: millimetres(clrMm) };
}

/** Counted by hand from the definitions, not by the program's own count. */
function undoCost(before: Primary, after: readonly Piece[], touched: ReadonlyMap<number, DisturbanceKind>): UndoCost {
  let tubeMm = 0;
  const acts: Act[] = [];
  for (const [at, kind] of touched) {
    const gainMm = pieceLength(before.pieces[at] as Piece) - pieceLength(after[at] as Piece);
    if (kind === 'clocking') acts.push({ kind: 'reclocked', at });
    else acts.push({ kind: kind === 'clr' || gainMm > 0 ? 'replaced' : 'shorter', at });
    if (kind === 'length') tubeMm += Math.max(0, gainMm);
    if (kind === 'clr' || (kind === 'angle' && gainMm > 0)) tubeMm += pieceLength(before.pieces[at] as Piece);
  }
  const kinds = [...touched.values()];
  return {
    joints: jointsByHand(after, acts),
    cuts: kinds.filter((kind) => kind !== 'clocking').length,
    adjusted: kinds.filter((kind) => kind === 'clocking').length,
    tubeMm,
  };
}
