/** Checks a cut plan against what was asked, from the plan alone: no solver and no way of cutting is trusted. */

import { radiansOf } from '../../units/angle.ts';
import { isSameSize } from '../shelf-match.ts';
import { type CutPlan, type CutStock, hundredths, type PlanGoals, type Stretch } from './cut-plan.ts';
import { type CutPiece, type CutProblem, cutWidthMm, FIT, type StockRow } from './cut-problem.ts';
import { isSameTube } from './tube-problem.ts';

/** What is wrong with a plan; `where` is the id of a piece or of a stock row. */
export interface PlanFault {
  readonly kind:
    | 'stockUnknown'
    | 'stockTwice'
    | 'stockTooFew'
    | 'pieceUnknown'
    | 'pieceTwice'
    | 'pieceMissing'
    | 'wrongTube'
    | 'wrongLength'
    | 'wrongPlace'
    | 'noCut'
    | 'cutTooNarrow'
    | 'remnantTooShort'
    | 'notAllOfStock'
    | 'goalWrong';
  readonly where: string;
}

/** Rounding that positions along a piece of stock may add up to, mm. */
const PLACE_MM = 1e-9;
/** Tube lost is summed from parts rounded to a hundredth each; so much may each stretch of tube be off. */
const LOST_PER_STRETCH = 1;

/** Every fault of the plan; none means that it can be cut as it says, and costs what it says. */
export function checkPlan(
  problem: CutProblem,
  plan: Pick<CutPlan, 'opened' | 'short' | 'goals'>,
): readonly PlanFault[] {
  const faults: PlanFault[] = [];
  const tally: Tally = { supplied: new Map(), welds: 0, lostMm: 0, cost: 0, stretches: 0 };
  const copies = new Map<string, Set<number>>();
  for (const item of plan.opened) {
    const row = problem.stock.find(({ id }) => id === item.rowId);
    if (row === undefined) {
      faults.push({ kind: 'stockUnknown', where: item.rowId });
      continue;
    }
    const known = copies.get(row.id) ?? new Set<number>();
    if (known.has(item.copy)) faults.push({ kind: 'stockTwice', where: row.id });
    copies.set(row.id, known.add(item.copy));
    if (known.size > row.count) faults.push({ kind: 'stockTooFew', where: row.id });
    tally.cost += row.isRemnant ? 0 : hundredths(row.cost);
    faults.push(...checkItem(problem, { row, item }, tally));
  }
  faults.push(...checkPieces(problem, plan.short, tally));
  return [...faults, ...checkGoals(plan, tally)];
}

interface Tally {
  /** How often each piece is cut. */
  readonly supplied: Map<string, number>;
  welds: number;
  lostMm: number;
  cost: number;
  stretches: number;
}

interface Opened {
  readonly row: StockRow;
  readonly item: CutStock;
}

/** Where an item's arc begins and ends, mm from its first end; straight stock is all leg. */
interface Zones {
  readonly arcFromMm: number;
  readonly arcToMm: number;
  readonly endMm: number;
}

function zonesOf(row: StockRow): Zones {
  if (row.kind === 'straight') return { arcFromMm: row.lengthMm, arcToMm: row.lengthMm, endMm: row.lengthMm };
  const arcToMm = row.legsMm[0] + row.clrMm * radiansOf(row.angleDeg);
  return { arcFromMm: row.legsMm[0], arcToMm, endMm: arcToMm + row.legsMm[1] };
}

function checkItem(problem: CutProblem, { row, item }: Opened, tally: Tally): readonly PlanFault[] {
  const faults: PlanFault[] = [];
  const zones = zonesOf(row);
  let atMm = 0;
  item.stretches.forEach((stretch, at) => {
    if (Math.abs(stretch.fromMm - atMm) > PLACE_MM || !(stretch.toMm > stretch.fromMm - PLACE_MM)) {
      faults.push({ kind: 'notAllOfStock', where: row.id });
    }
    atMm = stretch.toMm;
    tally.stretches += 1;
    if (stretch.kind === 'cut' || stretch.kind === 'scrap') tally.lostMm += stretch.toMm - stretch.fromMm;
    if (stretch.kind === 'piece') faults.push(...checkPiece(problem, { row, stretch, zones }, tally));
    if (stretch.kind === 'remnant' && !isWorthKeeping(stretch, { row, zones }, problem)) {
      faults.push({ kind: 'remnantTooShort', where: row.id });
    }
    const next = item.stretches[at + 1];
    if (next !== undefined) faults.push(...checkBetween(problem, [stretch, next], tally));
    faults.push(...checkCut(problem, item.stretches, at));
  });
  if (Math.abs(atMm - zones.endMm) > PLACE_MM) faults.push({ kind: 'notAllOfStock', where: row.id });
  return faults;
}

interface PlacedPiece {
  readonly row: StockRow;
  readonly stretch: Extract<Stretch, { kind: 'piece' }>;
  readonly zones: Zones;
}

function checkPiece(problem: CutProblem, { row, stretch, zones }: PlacedPiece, tally: Tally): readonly PlanFault[] {
  const piece = problem.pieces.find(({ id }) => id === stretch.pieceId);
  if (piece === undefined) return [{ kind: 'pieceUnknown', where: stretch.pieceId }];
  const faults: PlanFault[] = [];
  const fault = (kind: PlanFault['kind']) => faults.push({ kind, where: piece.id });
  tally.supplied.set(piece.id, (tally.supplied.get(piece.id) ?? 0) + 1);
  if (!isSameTube(piece.tube, row.tube)) fault('wrongTube');
  const lengthMm = stretch.toMm - stretch.fromMm;
  // Written so that a length that is no number fails.
  if (!(Math.abs(lengthMm - wantedMm(piece, row)) <= PLACE_MM)) fault('wrongLength');
  const isWithin = (fromMm: number, toMm: number) =>
    stretch.fromMm >= fromMm - PLACE_MM && stretch.toMm <= toMm + PLACE_MM;
  const isPlaced =
    piece.kind === 'bend'
      ? isWithin(zones.arcFromMm, zones.arcToMm)
      : isWithin(0, zones.arcFromMm) || isWithin(zones.arcToMm, zones.endMm);
  if (!isPlaced) fault('wrongPlace');
  return faults;
}

/** Centreline length that a piece comes to in this stock; no length fits when a bend's CLR is another. */
function wantedMm(piece: CutPiece, row: StockRow): number {
  if (piece.kind === 'straight') return piece.lengthMm;
  if (row.kind !== 'bend' || !isSameSize(row.clrMm, piece.clrMm)) return Number.NaN;
  return row.clrMm * radiansOf(piece.angleDeg);
}

function isWorthKeeping(
  { fromMm, toMm }: Stretch,
  { row, zones }: Pick<PlacedPiece, 'row' | 'zones'>,
  { saw }: CutProblem,
): boolean {
  const arcMm = Math.min(toMm, zones.arcToMm) - Math.max(fromMm, zones.arcFromMm);
  const lengthMm = row.kind === 'bend' && arcMm > PLACE_MM ? arcMm : toMm - fromMm;
  return lengthMm >= saw.shortestRemnantMm - 2 * PLACE_MM;
}

/** Two stretches of tube that touch are one piece of tube: only a joint may be left whole, and scrap beside scrap. */
function checkBetween(problem: CutProblem, pair: readonly [Stretch, Stretch], tally: Tally): readonly PlanFault[] {
  if (pair.some(({ kind }) => kind === 'cut')) return [];
  const ids = pair.flatMap((stretch) => (stretch.kind === 'piece' ? [stretch.pieceId] : []));
  const isJoint = problem.joints.some(({ straightId, bendId }) => ids.includes(straightId) && ids.includes(bendId));
  if (ids.length === 2 && isJoint) {
    tally.welds -= 1;
    return [];
  }
  return pair.every(({ kind }) => kind === 'scrap') ? [] : [{ kind: 'noCut', where: ids[0] ?? '' }];
}

/** A cut between two things that are wanted takes its whole width; only at an end of the stock, or into scrap, may it run off. */
function checkCut({ saw }: CutProblem, stretches: readonly Stretch[], at: number): readonly PlanFault[] {
  const [before, cut, after] = [stretches[at - 1], stretches[at], stretches[at + 1]];
  if (cut?.kind !== 'cut' || cut.toMm - cut.fromMm >= cutWidthMm(saw) - 2 * PLACE_MM - FIT) return [];
  const isWanted = (stretch: Stretch | undefined) => stretch?.kind === 'piece' || stretch?.kind === 'remnant';
  if (!isWanted(before) || !isWanted(after)) return [];
  const where = [before, after].flatMap((stretch) => (stretch?.kind === 'piece' ? [stretch.pieceId] : []));
  return [{ kind: 'cutTooNarrow', where: where[0] ?? '' }];
}

function checkPieces({ pieces }: CutProblem, short: readonly string[], { supplied }: Tally): readonly PlanFault[] {
  return pieces.flatMap(({ id }): readonly PlanFault[] => {
    const times = (supplied.get(id) ?? 0) + short.filter((one) => one === id).length;
    if (times === 1) return [];
    return [{ kind: times === 0 ? 'pieceMissing' : 'pieceTwice', where: id }];
  });
}

function checkGoals({ short, goals }: Pick<CutPlan, 'short' | 'goals'>, tally: Tally): readonly PlanFault[] {
  const wrong: (keyof PlanGoals)[] = [];
  if (goals.shortage !== short.length) wrong.push('shortage');
  if (goals.cost !== tally.cost) wrong.push('cost');
  if (goals.welds !== tally.welds) wrong.push('welds');
  if (Math.abs(goals.lost - 100 * tally.lostMm) > LOST_PER_STRETCH * tally.stretches + 1) wrong.push('lost');
  return wrong.map((where) => ({ kind: 'goalWrong', where }));
}
