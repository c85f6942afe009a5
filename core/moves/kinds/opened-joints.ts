/** Moves in which a few joints come apart and everything there may turn: what is left when straights alone will not do. */

import FlatQueue from 'flatqueue';
import { enterMove, settledValues, withFewerJoints } from '../offer/enter-move.ts';
import { touchOf, type Variable } from '../problem/variable.ts';
import { LEAST_STEP, largestKeyWith } from '../ranking/cost.ts';
import { keyOf, type Search } from '../search.ts';
import { MOST_SCREWS, type Screw } from '../turning/end-motion.ts';
import { LinearPicture } from '../turning/linear-picture.ts';
import { missAt } from '../turning/miss.ts';
import { type ChangeSets, changeSets, type Effort } from './change-sets.ts';
import { withFreeClockings } from './free-clockings.ts';

const THREE_CHANGES: Effort = { changes: 3, sets: 65_000, tries: 400, perLevel: 16, isForBest: false };
/** For what is cheaper by one more change, or takes it; too many to be looked at in long tubes. */
export const FOUR_CHANGES: Effort = { changes: 4, sets: 65_000, tries: 1200, perLevel: 40, isForBest: true };

/** From so many sets of one price on, only those that can still get in as they are found are looked into. */
const MANY_SETS = 1500;
/** From so many values on a set is tried without re-clockings on top too: only where so few fit well is it no accident. */
const BARE_CHANGES = 3;
const BARE_DOUBT = 0.6;
/** Sets looked at between two pauses. */
const SLICE = 256;

interface Context {
  readonly search: Search;
  readonly picture: LinearPicture;
  readonly variables: readonly Variable[];
  /** Indices of the re-clockings among the variables. */
  readonly clockings: readonly number[];
  /** Which of the leads each variable belongs to; -1 for the others. */
  readonly leadOf: readonly number[];
  readonly leads: number;
  readonly effort: Effort;
}

export interface JointVariables {
  /** Lists of bends of another CLR: every set holds one at least of each. */
  readonly leads: readonly (readonly Variable[])[];
  readonly others: readonly Variable[];
}

/**
 * Changes a few things, and re-clocks every bend that comes free with them, starting from how the tube lies now.
 *
 * Six figures must come right (three of the gap, two of the tilt, the length), and slip and band take the edge off two, so that
 * from four values on there is usually a solution near by. Sets are tried from the cheapest on until as many moves are found
 * as are wanted, or as many sets have been tried as the effort allows. Turns too large to be found from here are the
 * business of `searchTurns`.
 */
export function* searchOpenedJoints(
  search: Search,
  { leads, others }: JointVariables,
  effort: Effort = THREE_CHANGES,
): Generator<void, void> {
  const { best, aim } = search;
  const variables = [...leads.flat(), ...others];
  const leadOf = [...leads.flatMap((list, lead) => list.map(() => lead)), ...others.map(() => -1)];
  const picture = new LinearPicture(variables, aim);
  const clockings = variables.flatMap(({ kind }, index) => (kind === 'clocking' ? [index] : []));
  const context = { search, picture, variables, clockings, leadOf, leads: leads.length, effort };
  const limit = () => (effort.isForBest ? Math.min(best.keyLimit(), best.leastKey() - LEAST_STEP) : best.keyLimit());
  let left = effort.tries;
  const tried = new Set<string>();
  for (let joints = 0, dearest = -1; left > 0 && dearest < limit(); joints += 1) {
    const most = joints > variables.length ? Number.POSITIVE_INFINITY : largestKeyWith(joints);
    const levels = yield* changeSets(context, { above: dearest, most: Math.min(most, limit()) });
    dearest = most;
    for (const [key, sets] of levels) {
      if (left <= 0 || key > limit()) return;
      const promising = yield* promisingOf(context, sets, key);
      for (const { name, all } of promising) {
        yield;
        if (key > limit()) return;
        // What was re-clocked on top of one set is chosen on purpose in another.
        if (!tried.has(name)) tryTogether(search, all);
        tried.add(name);
      }
      left -= promising.length;
    }
  }
}

/** The sets of one price that are worth trying: as they are, and with all bends that come free re-clocked. */
function* promisingOf(context: Context, sets: ChangeSets, key: number): Generator<void, readonly Promising[]> {
  const { best } = context.search;
  const bare = new MostPromising(context, BARE_DOUBT);
  const freed = new MostPromising(context, 1);
  // Re-clockings on top cost something each. At the limit they help only where others can be left out for them.
  const mayAdd = key + LEAST_STEP <= best.keyLimit() || sets.length < MANY_SETS;
  for (const [at, chosen] of sets.entries()) {
    if (at % SLICE === 0) yield;
    const all = mayAdd ? withFreeClockings(context.search.tally, context, chosen) : chosen;
    if (chosen.length >= BARE_CHANGES || all.length === chosen.length) bare.consider(chosen);
    if (all.length > chosen.length) freed.consider(all);
  }
  return [...bare.inOrder(), ...freed.inOrder()];
}

interface Promising {
  /** The same for the same variables, however they came together. */
  readonly name: string;
  /** In order along the tube. */
  readonly all: readonly Variable[];
}

/** The sets of one list that look best; only for those is anything built. */
class MostPromising {
  private readonly context: Context;
  private readonly mostDoubt: number;
  /** The worst of those kept on top, by what the end misses after the step that the linear picture asks for, in tolerances. */
  private readonly kept = new FlatQueue<readonly number[]>();

  constructor(context: Context, mostDoubt: number) {
    this.context = context;
    this.mostDoubt = mostDoubt;
  }

  consider(chosen: readonly number[]): void {
    const { picture } = this.context;
    if (picture.doubt(chosen) > this.mostDoubt) return;
    const left = leftAfterStep(this.context, chosen);
    if (this.kept.length === this.context.effort.perLevel) {
      if (-left <= (this.kept.peekValue() as number)) return;
      this.kept.pop();
    }
    this.kept.push(chosen, -left);
  }

  /** The most promising first. */
  inOrder(): readonly Promising[] {
    const { variables } = this.context;
    const found: Promising[] = [];
    for (let chosen = this.kept.pop(); chosen !== undefined; chosen = this.kept.pop()) {
      const all = chosen.map((index) => variables[index] as Variable);
      const name = [...chosen].sort((a, b) => a - b).join();
      found.push({ name, all: all.sort((a, b) => a.screw.order - b.screw.order) });
    }
    return found.reverse();
  }
}

const stepScrews: Screw[] = [];
const stepValues = new Float64Array(MOST_SCREWS);

/** What the end misses after the step that the last look at the linear picture asks for, in tolerances. */
function leftAfterStep({ search: { aim }, picture, variables }: Context, chosen: readonly number[]): number {
  stepScrews.length = 0;
  for (let at = 0; at < chosen.length; at += 1) {
    const index = chosen[at] as number;
    const { start, present, low, high, screw, isFixed } = variables[index] as Variable;
    const wanted = start - present + picture.step(at, index);
    const value = isFixed ? 0 : Math.min(high - present, Math.max(low - present, wanted));
    // Screws go in order along the tube; chosen are mostly in it already.
    let to = stepScrews.length;
    for (; to > 0 && (stepScrews[to - 1] as Screw).order > screw.order; to -= 1) {
      stepScrews[to] = stepScrews[to - 1] as Screw;
      stepValues[to] = stepValues[to - 1] as number;
    }
    stepScrews[to] = screw;
    stepValues[to] = value;
  }
  const { limits } = aim.ends;
  const miss = missAt(aim, stepScrews, stepValues);
  return (miss.gapMm + miss.outsideMm) / limits.gapMm + miss.tiltDeg / limits.tiltDeg;
}

function tryTogether(search: Search, all: readonly Variable[]): void {
  const start = all.map((one) => one.start - one.present);
  const values = settledValues(search, all, start);
  if (values !== null) thinOut(search, all, values);
}

/** Leaves out what the move can do without, what costs most first, then the re-clockings that turn least, and enters what remains. */
function thinOut(search: Search, variables: readonly Variable[], values: Float64Array): void {
  let kept = variables;
  let now = values;
  for (const variable of inOrderOfLeaving(search, variables, values)) {
    const fewer = kept.filter((one) => one !== variable);
    if (fewer.length === 0) break;
    const start = fewer.map((one) => now[kept.indexOf(one)] as number);
    const without = settledValues(search, fewer, start);
    if (without !== null) [kept, now] = [fewer, without];
  }
  if (!enterMove(search, kept, withFewerJoints(search, kept, now)) && kept !== variables) {
    enterMove(search, variables, values);
  }
}

/** All re-clockings were let loose with the rest, so that they go last: what costs something may then go for good. */
function inOrderOfLeaving(search: Search, variables: readonly Variable[], values: Float64Array): readonly Variable[] {
  const sized = variables.map((variable, i) => {
    const isClocking = variable.kind === 'clocking';
    const price = isClocking ? 0 : keyOf(search, [touchOf(variable, values[i] as number)]);
    return { variable, price, turn: isClocking ? Math.abs(values[i] as number) : 0 };
  });
  return sized.sort((a, b) => b.price - a.price || a.turn - b.turn).map(({ variable }) => variable);
}
