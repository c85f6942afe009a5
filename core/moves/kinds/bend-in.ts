/** A single bend let in at a joint: where one is missing, or where none that is there can turn the end the right way. */

import { binormalOf, type Frame } from '../../path/frame.ts';
import { angleBetweenRad, cross, distance, dot, magnitude, turnAbout, unit, type Vector } from '../../path/vector.ts';
import { newBendVariables } from '../problem/new-bend-variables.ts';
import { type NewBend, newBends, nextClocking } from '../problem/new-bends.ts';
import type { Variable } from '../problem/variable.ts';
import { keyOf, type Search } from '../search.ts';
import { searchTurned } from './turned.ts';

/** Ways of rolling what follows that are tried; between two of them the rest is settled. */
const ROLLS = 48;
const MOST_STRAIGHTS = 2;

interface Place {
  readonly joint: number;
  readonly frame: Frame;
  /** Of the bend that follows; null when there is none. */
  readonly next: Variable | null;
}

/**
 * One new bend has a plane, an angle, and with the next bend's clocking, free as its joint is open, the roll of all that follows.
 * Such turns about two axes square to each other bring the end's direction onto the inlet's in one way for each roll (Euler's
 * angles), so the rolls are gone through all round, and straights make up for the rest as in `searchTurned`.
 */
export function* searchBendsIn(search: Search, variables: readonly Variable[]): Generator<void, void> {
  const { problem } = search;
  const shifts = variables.filter(({ kind }) => kind === 'length' || kind === 'takeOut' || kind === 'letIn');
  for (const place of placesOf(search, variables)) {
    for (const bend of newBends(problem)) {
      yield* searchAt(search, shifts, { place, bend });
    }
  }
}

function placesOf({ problem, aim }: Search, variables: readonly Variable[]): readonly Place[] {
  const { pieces, primary, jointStates } = problem;
  return aim.ends.joints.flatMap((frame, joint): readonly Place[] => {
    // Ahead of the first bend of a tube that nothing says the roll of, a clocking says nothing.
    const isUnrolled = primary.port === null && pieces.slice(0, joint).every(({ kind }) => kind === 'straight');
    if (isUnrolled || jointStates[joint] === 'welded' || nextClocking(problem, joint) === false) return [];
    const nextIndex = pieces.findIndex(({ kind }, index) => index >= joint && kind !== 'straight');
    if (nextIndex < 0) return [{ joint, frame, next: null }];
    const next = variables.find(({ kind, pieceIndex }) => kind === 'clocking' && pieceIndex === nextIndex);
    return next === undefined ? [] : [{ joint, frame, next }];
  });
}

interface Trial {
  readonly place: Place;
  readonly bend: NewBend;
}

function* searchAt(search: Search, shifts: readonly Variable[], { place, bend }: Trial): Generator<void, void> {
  const [clocking, angle] = newBendVariables(search.problem, place, bend);
  const turns = [clocking, angle, ...(place.next === null ? [] : [place.next])];
  const rolls = place.next === null ? [0] : Array.from({ length: ROLLS }, (_, roll) => (2 * Math.PI * roll) / ROLLS);
  for (const rollRad of rolls) {
    yield;
    if (!search.best.isWorthWhile(keyOf(search, turns))) return;
    const values = eulerAngles(search, place.frame, rollRad).slice(0, turns.length);
    const bendRad = values[1] as number;
    if (bendRad < angle.low || bendRad > angle.high) continue;
    yield* searchTurned(search, shifts, {
      turns,
      values,
      mostChanges: MOST_STRAIGHTS,
      extraMm: betweenMm(search, place),
    });
  }
}

/** How far the end may still have to go from one roll to half way to the next: the windows are widened by as much. */
function betweenMm({ aim: { ends } }: Search, { frame, next }: Place): number {
  return next === null ? 1 : (Math.PI / ROLLS) * distance(ends.end.point, frame.point);
}

/**
 * Turns about the tangent, then the binormal, then the tangent again that bring the end's direction onto the inlet's, with the end
 * rolled by so much about the inlet's axis beyond the shortest way.
 */
function eulerAngles({ aim }: Search, frame: Frame, rollRad: number): readonly [number, number, number] {
  const { end, wanted } = aim.ends;
  const { tangent, normal } = frame;
  const binormal = binormalOf(frame);
  const across = cross(end.tangent, wanted.tangent);
  const axis = magnitude(across) < 1e-9 ? normal : unit(across);
  const offRad = angleBetweenRad(end.tangent, wanted.tangent);
  const forth = (direction: Vector) => turnAbout(wanted.tangent, turnAbout(axis, direction, offRad), rollRad);
  const back = (direction: Vector) => turnAbout(axis, turnAbout(wanted.tangent, direction, -rollRad), -offRad);
  const after = forth(tangent);
  const before = back(tangent);
  return [
    Math.atan2(dot(after, binormal), dot(after, normal)),
    angleBetweenRad(after, tangent),
    Math.atan2(dot(before, binormal), -dot(before, normal)),
  ];
}
