/** Makes a proposal of a candidate, and proves it by code that the search does not use: applied, measured and traced anew. */

import { applyEdit } from '../../edits/apply-edit.ts';
import { replaceRestEdit } from '../../edits/piece-edits.ts';
import type { Header, Primary } from '../../header/header.ts';
import { pieceLength, primaryLength } from '../../length/piece-length.ts';
import { freshIds } from '../../moves/offer/fresh-ids.ts';
import { type HeaderGap, headerClearances } from '../../path/clearance/header-clearances.ts';
import { isClosed } from '../../path/ends/closure.ts';
import { primaryClosure } from '../../path/ends/inlet-pose.ts';
import { mmOf } from '../../units/length.ts';
import type { NearestThing, ProposedPrimary } from '../outcome.ts';
import type { ProposeProblem } from '../problem/propose-problem.ts';
import type { Candidate } from './candidate.ts';
import { piecesOf } from './pieces-of.ts';
import type { Surroundings } from './surroundings.ts';

const LARGEST_BEND_DEG = 180;
/** Lengths agree to the last digits of their sum. */
const SLACK_MM = 1e-6;

/** Null when the proof fails: it does not apply, close, or come to its length, a piece is not workable, or the gap is not kept. */
export function buildProposal(
  problem: ProposeProblem,
  candidate: Candidate,
  surroundings: Surroundings,
): ProposedPrimary | null {
  const { header, primary, keptPieces, limits, window } = problem;
  const pieces = piecesOf(problem, candidate.shape, freshIds(problem));
  const edit = replaceRestEdit(primary, keptPieces, pieces);
  const applied = edit === null ? null : applyEdit(header, edit);
  if (edit === null || applied?.ok !== true) return null;
  const after = applied.value.header;
  const made = after.primaries.find(({ id }) => id === primary.id);
  if (made === undefined || !isWorkable(problem, made)) return null;
  const closure = primaryClosure(after, made);
  if (!closure.ok || !isClosed(closure.value, limits)) return null;
  const lengthMm = primaryLength(made, { shrinkageMm: mmOf(header.settings.weldShrinkage) });
  if (window !== null && (lengthMm < window.lowMm - SLACK_MM || lengthMm > window.highMm + SLACK_MM)) return null;
  const things = thingsAbout(after, primary.id);
  if (!things.every((thing) => isFarEnough(problem, thing, surroundings))) return null;
  return {
    primaryId: primary.id,
    edit,
    pieces,
    keptPieces,
    lengthMm,
    deviationMm: window === null ? null : lengthMm - window.aimMm,
    closure: closure.value,
    bends: candidate.bends,
    readyBends: candidate.bends - candidate.oddBends,
    joints: candidate.joints,
    tubeMm: pieces.reduce((sumMm, piece) => sumMm + pieceLength(piece), 0),
    cuts: candidate.cuts,
    stockNeeded: candidate.needs,
    stockLacking: candidate.lacking,
    nearest: things.reduce<NearestThing | null>(
      (least, one) => (least === null || one.gapMm < least.gapMm ? one : least),
      null,
    ),
  };
}

/** No new bend over 180 degrees; no straight under the least from bend to bend, or to port and inlet, but between bends that are kept. */
function isWorkable({ keptPieces, header }: ProposeProblem, made: Primary): boolean {
  const leastMm = mmOf(header.settings.shortestStraight) - SLACK_MM;
  let straightMm = 0;
  for (const [index, piece] of made.pieces.entries()) {
    if (piece.kind === 'straight') {
      straightMm += mmOf(piece.length);
      continue;
    }
    if (index >= keptPieces && (straightMm < leastMm || piece.angleDeg > LARGEST_BEND_DEG)) return false;
    straightMm = 0;
  }
  return straightMm >= leastMm;
}

/** Nothing nearer than is kept, but what cannot be farther off wherever the tube goes. */
function isFarEnough({ gapKeptMm }: ProposeProblem, thing: NearestThing, { unavoidable }: Surroundings): boolean {
  if (gapKeptMm === null) return true;
  const name = { pair: `primary ${thing.id}`, obstacle: `obstacle ${thing.id}`, self: 'itself' }[thing.kind];
  return thing.gapMm >= Math.min(gapKeptMm, unavoidable.get(name) ?? gapKeptMm) - SLACK_MM;
}

/** What a primary has gaps to in its header; that tubes meet at a collector as they are meant to is left out. */
function thingsAbout(header: Header, primaryId: string): readonly NearestThing[] {
  return headerClearances(header).gaps.flatMap((gap) => thingOf(gap, primaryId) ?? []);
}

function thingOf(gap: HeaderGap, primaryId: string): NearestThing | null {
  const { gapMm } = gap.clearance;
  if (gap.kind === 'pair') {
    const { primaryIdA, primaryIdB, clearance, isAtCollector } = gap;
    if (isAtCollector || (primaryIdA !== primaryId && primaryIdB !== primaryId)) return null;
    const isFirst = primaryIdA === primaryId;
    const at = isFirst ? clearance.centreA : clearance.centreB;
    return { kind: 'pair', id: isFirst ? primaryIdB : primaryIdA, gapMm, at };
  }
  if (gap.primaryId !== primaryId) return null;
  if (gap.kind === 'self') return { kind: 'self', id: primaryId, gapMm, at: gap.clearance.centreA };
  return { kind: 'obstacle', id: gap.obstacleId, gapMm, at: gap.clearance.centre };
}
