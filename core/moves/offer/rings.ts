/** A straight that gets longer: replaced by a longer one, or lengthened by a ring let in at one of its ends. */

import { mmOf } from '../../units/length.ts';
import type { Setting } from '../problem/setting.ts';
import { letIn } from '../problem/straight-variables.ts';
import type { Variable } from '../problem/variable.ts';
import { isLacking, straightNeed } from '../ranking/stock-needs.ts';
import { keyOf, type Search } from '../search.ts';
import { roundToSaw } from './saw-steps.ts';

/**
 * The same move with a ring in place of each longer straight that the shelf does not have, where it has the ring; null where that is
 * nowhere so.
 *
 * One opened and two made for a ring, both ends opened for a replacement: two joints and one cut for either, and the same gain of tube
 * (common practice), so that of two ways that cost the same the shelf decides, and the replacement goes first: it leaves one weld less
 * in the tube. Where the straight itself is held, the search lets in straights beside it anyway.
 */
export function withRings(search: Search, settings: readonly Setting[]): readonly Setting[] | null {
  const { problem, aim } = search;
  const ringed = settings.map((setting) => ringFor(search, setting));
  if (ringed.every((one) => one === null)) return null;
  const exact = settings
    .map(({ variable, value }, i) => ringed[i] ?? { variable, value })
    .sort((a, b) => a.variable.screw.order - b.variable.screw.order);
  const rounded = roundToSaw(
    aim,
    { variables: exact.map(({ variable }) => variable), values: exact.map(({ value }) => value) },
    { style: problem.header.settings.display, isOff: problem.rounding === 'none' },
  );
  const isThere = rounded?.every(({ variable, length }) => variable.kind !== 'letIn' || isOnShelf(search, length));
  return isThere === true ? rounded : null;
}

interface Ring {
  readonly variable: Variable;
  readonly value: number;
}

function ringFor(search: Search, { variable, value, length }: Setting): Ring | null {
  const { problem, aim } = search;
  const { kind, pieceIndex } = variable;
  const isLonger = kind === 'length' && value > 0 && problem.pieces[pieceIndex]?.state !== 'planned';
  if (!isLonger || problem.stock === null || isOnShelf(search, length)) return null;
  const rings = [pieceIndex + 1, pieceIndex].flatMap((joint): readonly Ring[] => {
    const frame = aim.ends.joints[joint];
    if (frame === undefined) return [];
    const ring = letIn(problem, joint, frame);
    const ringMm = value + problem.shrinkageMm;
    return ring.isHeld || ringMm < ring.low ? [] : [{ variable: ring, value: ringMm }];
  });
  return rings.sort((a, b) => keyOf(search, [a.variable]) - keyOf(search, [b.variable]))[0] ?? null;
}

function isOnShelf({ problem: { stock, tube } }: Search, length: Setting['length']): boolean {
  return stock !== null && length !== null && !isLacking(straightNeed(stock, tube, mmOf(length)));
}
