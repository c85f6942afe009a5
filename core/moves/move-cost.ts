/** What a move costs, in the order in which costs count. */

import type { MoveProblem } from './move-problem.ts';
import { freedJoints, type JointDemand } from './joints.ts';

/**
 * Compared in this order:
 *
 * 1. `held`: locked or welded pieces changed and welded joints broken. Zero in every move that is offered; above zero
 *    only while the search tries what would have to be freed.
 * 2. `joints`: tacked joints that come apart, see `joints.ts`. Joints to planned and merely cut pieces come apart for free.
 * 3. `cuts`: saw cuts. A straight or bend cut to another length or angle, a bend replaced and a piece let in take one
 *    each; a piece taken out or re-clocked takes none, nor does one that is still planned and not cut yet.
 * 4. `tubeMm`: tube added, plus four times the distance from the length aimed at. Added are: what straights gain, straights let
 *    in, and the whole of every bend that is not cut out of the one there. The distance counts because the least tube alone
 *    would always stop at the edge of the band; four, because nobody adds and takes off 100 mm to come 1 mm nearer.
 *    Whole millimetres count: less than that does not outweigh what comes after.
 * 5. `lacking`: pieces needed that the shelf does not have.
 * 6. `offMm`: distance from the length aimed at, then `tightMm`: how far the least clearance is below the wanted gap.
 */
export interface CostFigures {
  readonly held: number;
  readonly joints: number;
  readonly cuts: number;
  readonly tubeMm: number;
  readonly lacking: number;
  readonly offMm: number;
  readonly tightMm: number;
}

/** Millimetres of tube that a millimetre off the target counts as. */
export const OFF_TARGET_WEIGHT = 4;

/** Negative when `a` costs less. */
export function compareCosts(a: CostFigures, b: CostFigures): number {
  return (
    a.held - b.held ||
    a.joints - b.joints ||
    a.cuts - b.cuts ||
    Math.round(a.tubeMm) - Math.round(b.tubeMm) ||
    a.lacking - b.lacking ||
    roundTenth(a.offMm) - roundTenth(b.offMm) ||
    roundTenth(a.tightMm) - roundTenth(b.tightMm) ||
    a.tubeMm - b.tubeMm
  );
}

function roundTenth(mm: number): number {
  return Math.round(mm * 10);
}

/** What decides about the cost of changing something, before its values are known. */
export interface Touch {
  readonly demand: JointDemand;
  readonly isHeld: boolean;
  readonly cuts: number;
}

const HELD_STEP = 1e6;
const JOINT_STEP = 1e3;

/** Held, joints and cuts of a set of changes in one number that sorts as they do. Never falls when a change is added. */
export function costKey({ jointStates }: MoveProblem, touches: readonly Touch[]): number {
  let held = 0;
  let cuts = 0;
  for (const touch of touches) {
    if (touch.isHeld) held += 1;
    cuts += touch.cuts;
  }
  let joints = 0;
  for (const joint of freedJoints(
    touches.map(({ demand }) => demand),
    jointStates,
  )) {
    const state = jointStates[joint];
    if (state === 'tacked') joints += 1;
    else if (state === 'welded') held += 1;
  }
  return held * HELD_STEP + joints * JOINT_STEP + cuts;
}

/** Tells the parts of a key apart again. */
export function keyParts(key: number): Pick<CostFigures, 'held' | 'joints' | 'cuts'> {
  return {
    held: Math.floor(key / HELD_STEP),
    joints: Math.floor((key % HELD_STEP) / JOINT_STEP),
    cuts: key % JOINT_STEP,
  };
}
