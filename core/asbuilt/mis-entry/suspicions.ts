/** Every single entry that may be wrong without anything being missing: figures, and pieces that are one too many. */

import type { Bend, PieCutBend, Piece, Primary } from '../../header/header.ts';
import { TURN_LIMIT_DEG, turnPerCutDeg } from '../../header/schema.ts';
import { lengthIn, mmOf } from '../../units/length.ts';
import { KIND_WEIGHTS, type MisEntryKind, type Suspicion } from './mis-entry.ts';
import { lengthSlips, USUAL_ANGLES_DEG } from './slips.ts';

type Raw = Omit<Suspicion, 'prior'>;

/** CLRs nearer to each other than this are one, mm. */
const SAME_CLR_MM = 0.05;
/** Angles nearer than this are one, degrees. */
const SAME_DEG = 0.05;

/**
 * All of them, each with its prior. A piece that repeats the one before it may well have been entered twice; any other that is
 * one too many is a tenth as likely in all.
 * @param clrsMm the CLRs that the shop has for this tube
 */
export function suspicionsOf(primary: Primary, clrsMm: readonly number[]): readonly Suspicion[] {
  const figures = primary.pieces.flatMap((piece, index) =>
    piece.kind === 'straight' ? straightSlips(piece, index) : bendSlips(piece, index, clrsMm),
  );
  return [...withPriors(figures), ...extraPieces(primary)];
}

/** The weight of each kind, shared evenly among its own. */
function withPriors(raw: readonly Raw[]): readonly Suspicion[] {
  const counts = new Map<MisEntryKind, number>();
  for (const { kind } of raw) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return raw.map((one) => ({ ...one, prior: KIND_WEIGHTS[one.kind] / (counts.get(one.kind) ?? 1) }));
}

function straightSlips(piece: Extract<Piece, { readonly kind: 'straight' }>, pieceIndex: number): readonly Raw[] {
  return lengthSlips(piece.length).map(({ kind, length }) => ({
    kind,
    pieceIndex,
    entered: piece,
    meant: { ...piece, length },
  }));
}

function bendSlips(piece: Bend | PieCutBend, pieceIndex: number, clrsMm: readonly number[]): readonly Raw[] {
  const raw = (kind: MisEntryKind, meant: Piece): Raw => ({ kind, pieceIndex, entered: piece, meant });
  const angles = USUAL_ANGLES_DEG.filter((deg) => Math.abs(deg - piece.angleDeg) > SAME_DEG)
    .map((angleDeg) => ({ ...piece, angleDeg }))
    .filter((bend) => bend.kind === 'bend' || turnPerCutDeg(bend) <= TURN_LIMIT_DEG);
  const enteredMm = mmOf(piece.clr);
  const radii = clrsMm.filter((mm) => Math.abs(mm - enteredMm) > SAME_CLR_MM);
  const units = lengthSlips(piece.clr).filter(({ kind }) => kind === 'unit');
  return [
    ...angles.map((bend) => raw('angle', bend)),
    ...radii.map((mm) => raw('clr', { ...piece, clr: lengthIn(mm, piece.clr.unit) })),
    ...units.map(({ length }) => raw('unit', { ...piece, clr: length })),
  ];
}

const LONE_EXTRA = 0.1;

function extraPieces({ pieces }: Primary): readonly Suspicion[] {
  if (pieces.length < 2) return [];
  const repeats = pieces.map((piece, index) => index > 0 && isSameShape(pieces[index - 1], piece));
  const repeated = repeats.filter((is) => is).length;
  return pieces.map((piece, pieceIndex): Suspicion => {
    const isRepeat = repeats[pieceIndex] === true;
    const share = isRepeat ? (1 - LONE_EXTRA) / repeated : LONE_EXTRA / Math.max(1, pieces.length - repeated);
    return { kind: 'twice', pieceIndex, entered: piece, meant: null, prior: KIND_WEIGHTS.twice * share };
  });
}

/** Whether two pieces are the same figure by figure, whatever else stands on them. */
function isSameShape(one: Piece | undefined, other: Piece): boolean {
  if (one === undefined || one.kind !== other.kind) return false;
  if (one.kind === 'straight') return other.kind === 'straight' && mmOf(one.length) === mmOf(other.length);
  if (other.kind === 'straight') return false;
  const isSamePies = one.kind !== 'pieCut' || (other.kind === 'pieCut' && one.pies === other.pies);
  const isSameBend = one.angleDeg === other.angleDeg && one.clockingDeg === other.clockingDeg;
  return isSamePies && isSameBend && mmOf(one.clr) === mmOf(other.clr);
}
