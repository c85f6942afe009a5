/**
 * Which single entry, put right, explains that a finished primary is not as its pieces say.
 *
 * Every entry that may be wrong is put right in turn, and the primary is held against all that is known of it at once: each
 * measured length along its own way, and the end, which is known to be at the inlet. Each piece may be out by the shop's
 * tolerances and each reading by its own, so what is left over has a covariance, and counts in standard deviations. Two ways
 * of measuring tell bends from straights, since an outside tape goes a longer way round a bend; the inlet tells which bend.
 * Ranked by Bayes' rule: how often such a slip is made, times how well what was measured fits it.
 */

import type { Edit } from '../../edits/edit.ts';
import { addPiecesEdit, removePiecesEdit, replacePieceEdit } from '../../edits/piece-edits.ts';
import type { Header, Primary } from '../../header/header.ts';
import { traceFrom } from '../../path/trace-primary.ts';
import { asBuilt } from '../as-built.ts';
import { type Evidence, evidenceCount, evidenceOf, type Weighing, weigh } from '../evidence.ts';
import { chiSquared99, innerProduct, whitened } from '../normal-matrix.ts';
import { addedBy, couldFit } from './length-fits.ts';
import { correctedBy, type MisEntry, type Suspicion } from './mis-entry.ts';
import { canBeJudged, missedBends, missedStraights } from './missed-pieces.ts';
import { suspicionsOf } from './suspicions.ts';

/** A reading is off its pieces; each agrees with them but not with the others; or the end misses its inlet and nothing else is off. */
type WhatIsOff = 'length' | 'readings' | 'end';

export type MisEntryOutcome =
  | { readonly kind: 'notMeasured' }
  /** Every reading agrees with the pieces, and the end with its inlet where it is known. */
  | { readonly kind: 'agrees' }
  /** The likeliest first; never empty. */
  | { readonly kind: 'explained'; readonly off: WhatIsOff; readonly entries: readonly MisEntry[] }
  /** No single entry explains it. */
  | { readonly kind: 'none'; readonly off: WhatIsOff };

export interface MisEntrySearch {
  /** CLRs that the shop has for this tube, mm. */
  readonly clrsMm: readonly number[];
  /** For a piece that was missed. */
  readonly newId: string;
}

/** No more are shown than anybody would look through, and none that is this much less likely than the first. */
const SHOWN = 5;
const LEAST_SHARE = 0.02;

/**
 * Searches one primary. Cost: linear in the pieces for each entry that could bring the measured lengths right, which few can;
 * about 5 milliseconds for ten pieces.
 */
export function findMisEntry(header: Header, primary: Primary, search: MisEntrySearch): MisEntryOutcome {
  const evidence = evidenceOf(header, primary);
  if (evidence.lengths.length === 0) return { kind: 'notMeasured' };
  const now = weigh(evidence, primary);
  if (now === null) return { kind: 'none', off: 'length' };
  const isLengthOff = asBuilt(header, primary).lengths.some(({ verdict }) => verdict !== 'agrees');
  if (!isLengthOff && now.chiSquared <= chiSquared99(evidenceCount(evidence))) return { kind: 'agrees' };
  const off = isLengthOff ? 'length' : areReadingsApart(evidence, now) ? 'readings' : 'end';
  const { path } = traceFrom(primary, evidence.start, true);
  const missing = { evidence, primary, now, path, clrsMm: search.clrsMm, newId: search.newId };
  const missed = [...missedStraights(missing), ...missedBends(missing)].filter((one) => canBeJudged(evidence, one));
  const found = [
    ...suspicionsOf(primary, search.clrsMm)
      .filter(({ entered, meant }) => couldFit(evidence, now, addedBy(evidence, entered, meant)))
      .flatMap((suspicion) => explanation(evidence, primary, suspicion, 0)),
    ...missed.flatMap((suspicion) => explanation(evidence, primary, suspicion, suspicion.freeFigures)),
  ];
  const entries = ranked(found, primary);
  return entries.length === 0 ? { kind: 'none', off } : { kind: 'explained', off, entries };
}

/** Lengths come before the end among the residuals, so that the first of the factored ones are those of the lengths alone. */
function areReadingsApart({ lengths, inlet }: Evidence, { factor, residuals }: Weighing): boolean {
  if (inlet === null) return true;
  const white = whitened(factor, residuals).slice(0, lengths.length);
  return innerProduct(white, white) > chiSquared99(lengths.length);
}

interface Explanation extends Suspicion {
  readonly weighing: Weighing;
  readonly limit: number;
  /** Logarithm of prior times likelihood, up to a constant. */
  readonly log: number;
}

/** None where what is left over is more than 1 in 100 tubes of such pieces would leave. */
function explanation(
  evidence: Evidence,
  primary: Primary,
  suspicion: Suspicion,
  freeFigures: number,
): readonly Explanation[] {
  const weighing = weigh(evidence, correctedBy(primary, suspicion));
  const limit = chiSquared99(evidenceCount(evidence) - freeFigures);
  if (weighing === null || weighing.chiSquared > limit) return [];
  const log = Math.log(suspicion.prior) - (weighing.chiSquared + weighing.logDeterminant) / 2;
  return [{ ...suspicion, weighing, limit, log }];
}

function ranked(found: readonly Explanation[], primary: Primary): readonly MisEntry[] {
  const sorted = found.toSorted((a, b) => b.log - a.log);
  const most = sorted[0]?.log ?? 0;
  const total = sorted.reduce((sum, { log }) => sum + Math.exp(log - most), 0);
  return sorted.slice(0, SHOWN).flatMap(({ weighing, limit, log, ...suspicion }, index): readonly MisEntry[] => {
    const edit = editOf(primary, suspicion);
    const share = Math.exp(log - most) / total;
    if (edit === null || (index > 0 && share < LEAST_SHARE)) return [];
    return [{ ...suspicion, edit, chiSquared: weighing.chiSquared, chiSquaredLimit: limit, share }];
  });
}

function editOf(primary: Primary, { pieceIndex, entered, meant }: Suspicion): Edit | null {
  if (meant === null) return entered === null ? null : removePiecesEdit(primary, [entered.id]);
  return entered === null ? addPiecesEdit(primary, [meant], pieceIndex) : replacePieceEdit(primary, meant);
}
