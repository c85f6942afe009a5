/** Makes stretches of tube of the ways of cutting that were chosen: where each piece, cut, remnant and scrap lies. */

import { radiansOf } from '../../../units/angle.ts';
import type { ChosenUnit } from '../chosen.ts';
import { runRest } from '../columns/run.ts';
import type { Stretch } from '../cut-plan.ts';
import { cutWidthMm, FIT, type SawSettings } from '../cut-problem.ts';
import type { BendRow, StraightRow } from '../tube-problem.ts';

/** A stretch before it has its place. */
type Part =
  | { readonly kind: 'piece'; readonly pieceId: string; readonly lengthMm: number }
  | { readonly kind: 'cut' | 'remnant' | 'scrap'; readonly lengthMm: number };

interface NamedPiece {
  readonly id: string;
  readonly lengthMm: number;
}

/** Straight stock: pieces from its first end, each but the last followed by a cut, and what is left after one more. */
export function layOutStick(row: StraightRow, pieces: readonly NamedPiece[], saw: SawSettings): readonly Stretch[] {
  const run = { kind: 'stick', lengthMm: row.lengthMm } as const;
  return placed(cutOff(run, pieces, saw), saw);
}

interface BendLayout {
  readonly arc: Extract<ChosenUnit, { kind: 'bend' }>['arc'];
  /** Bends from the first end to the other, with the straights that stay on the outermost two. */
  readonly bends: readonly { readonly id: string; readonly angleDeg: number }[];
  readonly joined: readonly [NamedPiece | null, NamedPiece | null];
  /** Straights cut from the legs, from the free ends inwards. */
  readonly legs: readonly [readonly NamedPiece[], readonly NamedPiece[]];
}

/** A stock bend from its first end to its other: leg, arc, leg. */
export function layOutBend(row: BendRow, layout: BendLayout, saw: SawSettings): readonly Stretch[] {
  const { arc, legs, joined } = layout;
  const leg = (side: 0 | 1): readonly Part[] => {
    const kept = joined[side];
    const parts = cutOff(arc.legs[side], legs[side], saw, arc.keepsRest || arc.bends.length > 0);
    return kept === null ? parts : [...parts, { kind: 'piece', pieceId: kept.id, lengthMm: kept.lengthMm }];
  };
  return placed([...leg(0), ...arcParts(row, layout, saw), ...leg(1).toReversed()], saw);
}

/**
 * Straights from the free end of a run, then what is left of it. A leg that comes off is cut where its bend begins, for the
 * face of the bend that is wanted there; where none is, only for the sake of a remnant.
 */
function cutOff(
  run: Parameters<typeof runRest>[0],
  pieces: readonly NamedPiece[],
  saw: SawSettings,
  hasFace = true,
): readonly Part[] {
  const widthMm = cutWidthMm(saw);
  const parts: Part[] = [];
  let takenMm = 0;
  for (const { id, lengthMm } of pieces) {
    const cutMm = Math.min(widthMm, run.lengthMm - takenMm - lengthMm);
    parts.push({ kind: 'piece', pieceId: id, lengthMm }, { kind: 'cut', lengthMm: cutMm });
    takenMm += lengthMm + widthMm;
  }
  const { restMm, isKept } = runRest(run, takenMm, saw);
  const leftMm = Math.max(0, run.lengthMm - takenMm);
  if (run.kind !== 'apart') return [...parts, { kind: isKept ? 'remnant' : 'scrap', lengthMm: restMm }];
  if (!hasFace && !isKept) return [...parts, { kind: 'scrap', lengthMm: leftMm }];
  return [
    ...parts,
    { kind: isKept ? 'remnant' : 'scrap', lengthMm: restMm },
    { kind: 'cut', lengthMm: leftMm - restMm },
  ];
}

function arcParts(row: BendRow, { arc, bends }: BendLayout, saw: SawSettings): readonly Part[] {
  const arcMm = (angleDeg: number) => row.clrMm * radiansOf(angleDeg);
  const cut: Part = { kind: 'cut', lengthMm: cutWidthMm(saw) };
  const pieces: readonly Part[] = bends.map(({ id, angleDeg }) => ({
    kind: 'piece',
    pieceId: id,
    lengthMm: arcMm(angleDeg),
  }));
  const rest: Part = { kind: arc.keepsRest ? 'remnant' : 'scrap', lengthMm: arc.restMm };
  if (bends.length === 0) return [rest];
  const bentDeg = bends.reduce((sum, { angleDeg }) => sum + angleDeg, 0);
  const betweenMm = (bends.length - 1) * cut.lengthMm;
  // The last cut may run off the end of the arc.
  const lastCut: Part = { kind: 'cut', lengthMm: arcMm(row.angleDeg - bentDeg) - betweenMm - arc.restMm };
  const inRow = (some: readonly Part[]) => some.flatMap((piece, at) => (at === 0 ? [piece] : [cut, piece]));
  if (arc.restAt === 'first') return [rest, lastCut, ...inRow(pieces)];
  if (arc.restAt === 'other' || pieces.length === 1) return [...inRow(pieces), lastCut, rest];
  return [...inRow(pieces.slice(0, -1)), lastCut, rest, cut, ...pieces.slice(-1)];
}

/**
 * One after the other from the first end; what has no length is left out, and what is left beside its like is one with it.
 * A saw that takes nothing still cuts, so its cuts stay.
 */
function placed(parts: readonly Part[], saw: SawSettings): readonly Stretch[] {
  const takesNothing = cutWidthMm(saw) <= FIT;
  const stretches: Stretch[] = [];
  let fromMm = 0;
  for (const { lengthMm, ...what } of parts) {
    if (lengthMm <= FIT && what.kind !== 'piece' && !(takesNothing && what.kind === 'cut')) continue;
    const last = stretches.at(-1);
    const toMm = fromMm + lengthMm;
    if (last !== undefined && what.kind !== 'piece' && last.kind === what.kind) {
      stretches[stretches.length - 1] = { ...last, toMm };
    } else stretches.push({ ...what, fromMm, toMm });
    fromMm = toMm;
  }
  return stretches;
}
