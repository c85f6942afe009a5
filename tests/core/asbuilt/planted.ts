/** Entries made wrong in known ways, and what the search says of them. */

import { asBuilt } from '../../../core/asbuilt/as-built.ts';
import { findMisEntry } from '../../../core/asbuilt/mis-entry/find-mis-entry.ts';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Piece, Primary } from '../../../core/header/header.ts';
import type { ShopTolerances } from '../../../core/header/measured.ts';
import { inches, MM_PER_INCH } from '../../../core/units/length.ts';
import { pick } from '../moves/made-headers.ts';
import { foundValue, seededRandom } from '../path/made-primaries.ts';
import { finishedTube, headerWith, isSameTube, type Random, SHELF_CLRS_IN } from './finished-tubes.ts';

export const PLANTED_KINDS = ['angle', 'clr', 'missed', 'twice', 'fraction', 'unit'] as const;
export type PlantedKind = (typeof PLANTED_KINDS)[number];

/** The primary as somebody entered it who slipped at piece `at`; null where that piece cannot be slipped at so. */
function slippedAt(primary: Primary, at: number, { kind, random }: Slip): Primary | null {
  const piece = primary.pieces[at] as Piece;
  if (kind === 'missed') return { ...primary, pieces: primary.pieces.toSpliced(at, 1) };
  if (kind === 'twice') {
    return { ...primary, pieces: primary.pieces.toSpliced(at + 1, 0, { ...piece, id: `${piece.id}-again` }) };
  }
  const entered = slippedPiece(piece, kind, random);
  return entered === null ? null : { ...primary, pieces: primary.pieces.with(at, entered) };
}

interface Slip {
  readonly kind: PlantedKind;
  readonly random: Random;
}

function slippedPiece(piece: Piece, kind: 'angle' | 'clr' | 'fraction' | 'unit', random: Random): Piece | null {
  if (piece.kind === 'straight') {
    if (kind !== 'fraction' && kind !== 'unit') return null;
    const { value, unit } = piece.length;
    if (kind === 'unit') return { ...piece, length: { value, unit: unit === 'in' ? 'mm' : 'in' } };
    const step = unit === 'in' ? pick(random, [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1]) : pick(random, [1, 10, 100]);
    const slipped = value + (random() < 0.5 ? -step : step);
    return slipped > 0 ? { ...piece, length: { value: slipped, unit } } : null;
  }
  if (kind === 'angle') {
    const angleDeg = pick(
      random,
      [15, 22.5, 30, 45, 60, 75, 90].filter((deg) => deg !== piece.angleDeg),
    );
    return { ...piece, angleDeg };
  }
  if (kind !== 'clr') return null;
  return {
    ...piece,
    clr: inches(
      pick(
        random,
        SHELF_CLRS_IN.filter((clr) => clr !== piece.clr.value),
      ),
    ),
  };
}

export interface Trial {
  readonly cases: number;
  /** How many entries are wrong at once, each at another piece. */
  readonly errors: 1 | 3;
  /** What the header says of its shop. */
  readonly tolerances: ShopTolerances;
  /** What the shop does; as it says unless given. */
  readonly madeWithin?: ShopTolerances;
  readonly seed: number;
}

export interface TrialResult {
  /** The planted entry was named first. */
  readonly first: number;
  /** It was named, but not first. */
  readonly later: number;
  /** No single entry was said to explain it. */
  readonly none: number;
  /** Errors that no reading showed, and that were drawn again. */
  readonly unseen: number;
  readonly missedBy: readonly string[];
}

/** A missed piece has a length or a clocking that is measured, not chosen. */
const NEAR = { exact: { mm: 1e-6, deg: 1e-6 }, fitted: { mm: 6, deg: 8 } } as const;

/** Plants errors in so many finished tubes, each of which some reading shows alone, and asks for the mis-entry. */
export function tryPlanted({ cases, errors, tolerances, madeWithin = tolerances, seed }: Trial): TrialResult {
  const counts = { first: 0, later: 0, none: 0, unseen: 0 };
  const missedBy: string[] = [];
  for (let index = 0; index < cases; ) {
    const random = seededRandom(seed + counts.unseen * 7919 + index * 104_729);
    for (let warm = 0; warm < 5; warm += 1) random();
    const tube = finishedTube(tolerances, madeWithin, random);
    const planted = plantedErrors(tube.right, errors, random);
    if (planted === null || !planted.each.every((one) => isSeen(headerWith(tube, one)))) {
      counts.unseen += 1;
      continue;
    }
    const header = headerWith(tube, planted.entered);
    index += 1;
    const [primary] = header.primaries;
    if (primary === undefined) throw new Error('it has one');
    const outcome = findMisEntry(header, primary, {
      clrsMm: SHELF_CLRS_IN.map((clr) => clr * MM_PER_INCH),
      newId: 'new',
    });
    if (outcome.kind !== 'explained') {
      if (outcome.kind === 'none') counts.none += 1;
      missedBy.push(`${planted.kinds.join('+')}: ${outcome.kind}`);
      continue;
    }
    const near = planted.kinds.includes('missed') ? NEAR.fitted : NEAR.exact;
    const at = outcome.entries.findIndex(({ edit }) => {
      const mended = foundValue(applyEdit(header, edit)).header.primaries[0];
      return mended !== undefined && isSameTube(mended, tube.right, near);
    });
    if (at === 0) counts.first += 1;
    else {
      if (at > 0) counts.later += 1;
      missedBy.push(`${planted.kinds.join('+')}: named ${outcome.entries[0]?.kind}, its own at ${at}`);
    }
  }
  return { ...counts, missedBy };
}

interface Planted {
  readonly entered: Primary;
  readonly kinds: readonly PlantedKind[];
  /** The right primary with each error alone. */
  readonly each: readonly Primary[];
}

/** From the last piece to the first, so that no slip shifts the place of the next; null where one cannot be made. */
function plantedErrors(right: Primary, errors: number, random: Random): Planted | null {
  const places = new Set<number>();
  while (places.size < errors) places.add(Math.floor(random() * right.pieces.length));
  let entered = right;
  const kinds: PlantedKind[] = [];
  const each: Primary[] = [];
  for (const at of [...places].toSorted((a, b) => b - a)) {
    const kind = pick(random, PLANTED_KINDS);
    const slip = { kind, random };
    const alone = slippedAt(right, at, slip);
    if (alone === null) return null;
    const piece = alone.pieces[at];
    entered =
      kind === 'missed' || kind === 'twice' || piece === undefined
        ? (slippedAt(entered, at, slip) ?? entered)
        : { ...entered, pieces: entered.pieces.with(at, piece) };
    kinds.push(kind);
    each.push(alone);
  }
  return { entered, kinds, each };
}

function isSeen(header: ReturnType<typeof headerWith>): boolean {
  const [primary] = header.primaries;
  return primary !== undefined && asBuilt(header, primary).lengths.some(({ verdict }) => verdict !== 'agrees');
}
