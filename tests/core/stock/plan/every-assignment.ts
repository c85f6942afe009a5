/** The best plan by trying every assignment of pieces to stock, each laid out in every way: no bound, no listing of ways, no shared code. */

import type { CutProblem, StockRow } from '../../../../core/stock/plan/cut-problem.ts';

export interface BestGoals {
  readonly shortage: number;
  readonly cost: number;
  readonly welds: number;
  readonly lostMm: number;
}

const NEAR = 1e-9;
const rad = (deg: number) => (deg * Math.PI) / 180;

/** For one item of stock and a set of pieces, as bits: the best of its layouts; null when there is none. */
type BestOfSet = (set: number) => Omit<BestGoals, 'shortage'> | null;

/** All in one tube; costs in hundredths. Goes with (items + 1) to the number of pieces. */
export function bestOfEveryAssignment(problem: CutProblem): BestGoals {
  const items = problem.stock.flatMap((row) => Array.from({ length: row.count }, () => bestOfItem(problem, row)));
  let best: BestGoals | null = null;
  const sets = items.map(() => 0);
  const assign = (piece: number, shortage: number): void => {
    if (best !== null && shortage > best.shortage) return;
    if (piece < problem.pieces.length) {
      for (let item = 0; item < items.length; item += 1) {
        sets[item] = (sets[item] ?? 0) | (1 << piece);
        assign(piece + 1, shortage);
        sets[item] = (sets[item] ?? 0) & ~(1 << piece);
      }
      assign(piece + 1, shortage + 1);
      return;
    }
    const sum = { shortage, cost: 0, welds: 0, lostMm: 0 };
    for (let item = 0; item < items.length; item += 1) {
      if (sets[item] === 0) continue;
      const one = items[item]?.(sets[item] ?? 0) ?? null;
      if (one === null) return;
      sum.cost += one.cost;
      sum.welds += one.welds;
      sum.lostMm += one.lostMm;
    }
    if (best === null || isBetter(sum, best)) best = sum;
  };
  assign(0, 0);
  return best ?? { shortage: 0, cost: 0, welds: 0, lostMm: 0 };
}

function isBetter(a: BestGoals, b: BestGoals): boolean {
  return (a.shortage - b.shortage || a.cost - b.cost || a.welds - b.welds || a.lostMm - b.lostMm) < 0;
}

function bestOfItem(problem: CutProblem, row: StockRow): BestOfSet {
  const known = new Map<number, ReturnType<BestOfSet>>();
  return (set) => {
    const seen = known.get(set);
    if (seen !== undefined) return seen;
    const pieces = problem.pieces.filter((_, at) => (set & (1 << at)) !== 0);
    const best = row.kind === 'straight' ? bestOfStick(problem, row, pieces) : bestOfBend(problem, row, pieces);
    known.set(set, best);
    return best;
  };
}

type Pieces = CutProblem['pieces'];
type Price = ReturnType<BestOfSet>;

function costOf(row: StockRow): number {
  return row.isRemnant ? 0 : Math.round(100 * row.cost);
}

/** Tube between two things: `cuts` of it are sawn, and the rest is worth keeping or lost. */
function lostOfGap(gapMm: number, cuts: number, { saw }: CutProblem): number {
  const sawnMm = cuts * (saw.kerfMm + 2 * saw.facingMm);
  const restMm = gapMm - sawnMm;
  return restMm > NEAR && restMm >= saw.shortestRemnantMm - NEAR ? sawnMm : gapMm;
}

function bestOfStick(problem: CutProblem, row: Extract<StockRow, { kind: 'straight' }>, pieces: Pieces): Price {
  const widthMm = problem.saw.kerfMm + 2 * problem.saw.facingMm;
  let atMm = 0;
  for (const piece of pieces) {
    if (piece.kind !== 'straight') return null;
    atMm += piece.lengthMm + widthMm;
  }
  const endMm = atMm - widthMm;
  if (endMm > row.lengthMm + NEAR) return null;
  const lostMm = (pieces.length - 1) * widthMm + lostOfGap(row.lengthMm - endMm, 1, problem);
  return { cost: costOf(row), welds: 0, lostMm };
}

type Place = 'legA' | 'legB' | 'joinA' | 'joinB';
const PLACES: readonly Place[] = ['legA', 'legB', 'joinA', 'joinB'];

/** Every straight in every place, and what is left of the arc at every end of it. */
function bestOfBend(problem: CutProblem, row: Extract<StockRow, { kind: 'bend' }>, pieces: Pieces): Price {
  const straights = pieces.filter((piece) => piece.kind === 'straight');
  const bends = pieces.filter((piece) => piece.kind === 'bend');
  if (bends.some(({ clrMm }) => Math.abs(clrMm - row.clrMm) > 0.01)) return null;
  let best: Price = null;
  for (let code = 0; code < 4 ** straights.length; code += 1) {
    const places = straights.map((_, at) => PLACES[Math.floor(code / 4 ** at) % 4] ?? 'legA');
    for (const restAt of ['A', 'B', 'between'] as const) {
      const laid = layOut(problem, row, { straights, places, bends, restAt });
      if (laid === null) continue;
      const isFirst = best === null || laid.welds < best.welds;
      if (isFirst || (best !== null && laid.welds === best.welds && laid.lostMm < best.lostMm)) best = laid;
    }
  }
  return best;
}

interface Layout {
  readonly straights: readonly Extract<Pieces[number], { kind: 'straight' }>[];
  readonly places: readonly Place[];
  readonly bends: readonly Extract<Pieces[number], { kind: 'bend' }>[];
  readonly restAt: 'A' | 'B' | 'between';
}

function layOut(problem: CutProblem, row: Extract<StockRow, { kind: 'bend' }>, layout: Layout): Price {
  const { straights, places, bends, restAt } = layout;
  const widthMm = problem.saw.kerfMm + 2 * problem.saw.facingMm;
  const at = (place: Place) => straights.filter((_, index) => places[index] === place);
  const joins = [at('joinA'), at('joinB')] as const;
  if (joins.some(({ length }) => length > 1)) return null;
  const arcMm = row.clrMm * rad(row.angleDeg);
  const bentMm = bends.reduce((sum, { angleDeg }) => sum + row.clrMm * rad(angleDeg), 0);
  const leftMm = arcMm - bentMm - Math.max(0, bends.length - 1) * widthMm;
  if (leftMm < -NEAR) return null;
  if (!canJoin(problem, { joins, bends, isWhole: leftMm <= NEAR })) return null;
  if (joins[0].length > 0 && restAt === 'A') return null;
  if (joins[1].length > 0 && restAt === 'B') return null;
  if (restAt === 'between' && joins.some(({ length }) => length === 0)) return null;
  // What is left of each leg once straights have been sawn off, and the straight that stays has its length.
  const legs = ([0, 1] as const).map((side) => {
    const sawn = at(side === 0 ? 'legA' : 'legB');
    const keptMm = joins[side].reduce((sum, { lengthMm }) => sum + lengthMm, 0);
    return row.legsMm[side] - keptMm - sawn.reduce((sum, { lengthMm }) => sum + lengthMm + widthMm, 0);
  });
  if (legs.some((leg) => leg < -NEAR)) return null;
  const sawnMm = widthMm * (at('legA').length + at('legB').length + Math.max(0, bends.length - 1));
  const arcRestMm = bends.length === 0 ? arcMm : leftMm - widthMm;
  const isArcKept = arcRestMm > NEAR && arcRestMm >= problem.saw.shortestRemnantMm - NEAR;
  const lostOfLeg = (side: 0 | 1) => {
    const staysOn = isArcKept && (bends.length === 0 || restAt === (side === 0 ? 'A' : 'B'));
    return staysOn ? 0 : lostOfGap(Math.max(0, legs[side] ?? 0), 1, problem);
  };
  const arcLostMm = isArcKept ? leftMm - arcRestMm : leftMm;
  const lostOfArcMm = bends.length === 0 && isArcKept ? 0 : arcLostMm;
  const lostMm = sawnMm + lostOfArcMm + lostOfLeg(0) + lostOfLeg(1);
  return { cost: costOf(row), welds: -joins[0].length - joins[1].length, lostMm };
}

interface Joining {
  readonly joins: readonly [readonly { readonly id: string }[], readonly { readonly id: string }[]];
  readonly bends: readonly { readonly id: string }[];
  readonly isWhole: boolean;
}

/** Whether each straight that stays on has a bend of its own beside it in the header, or both have the one that is the whole arc. */
function canJoin({ joints }: CutProblem, { joins: [a, b], bends, isWhole }: Joining): boolean {
  const partners = (straight: { readonly id: string } | undefined) =>
    bends.filter((bend) => joints.some((one) => one.straightId === straight?.id && one.bendId === bend.id));
  const [atA, atB] = [partners(a[0]), partners(b[0])];
  if (a.length > 0 && atA.length === 0) return false;
  if (b.length > 0 && atB.length === 0) return false;
  if (a.length === 0 || b.length === 0) return true;
  return atA.some((one) => atB.some((other) => one.id !== other.id || (bends.length === 1 && isWhole)));
}
