/** A cut plan as work: each opened stock item with its cuts in order, and what each of them gives. */

import type { CutPlan, CutStock, Stretch } from '../cut-plan.ts';
import type { CutProblem, SawSettings, StockRow } from '../cut-problem.ts';
import { remnantRow } from '../remnant-stock.ts';
import { type SawMark, sawMark } from './saw-mark.ts';

/** What comes off as one piece of tube. */
export type CutGift =
  /** One piece, or a bend with the straights that stay on it, from the first end on. */
  | { readonly kind: 'pieces'; readonly pieceIds: readonly string[] }
  /** Goes back on the shelf, marked as what it is. */
  | { readonly kind: 'remnant'; readonly stock: StockRow }
  | { readonly kind: 'scrap'; readonly lengthMm: number };

export interface CutStep {
  readonly gives: readonly CutGift[];
  /** Where the saw goes to free it: the line, and on which side of the line the kerf lies. Null: it is what the cuts before have left. */
  readonly saw: {
    readonly line: SawMark;
    readonly kerfLies: 'beyond' | 'before';
    /** Tube between what is on the two sides of this cut, mm along the centreline: kerf, facing, and what is ground off with them. */
    readonly widthMm: number;
  } | null;
}

export interface CutListItem {
  readonly row: StockRow;
  readonly copy: number;
  /** From the item's first end to its other. All lines are measured on the uncut item, so mark them all before the first cut. */
  readonly steps: readonly CutStep[];
}

/** Bends before straight stock, each as it stands in the stock; remnants first, for they cost nothing. */
export function cutList(problem: CutProblem, { opened }: Pick<CutPlan, 'opened'>): readonly CutListItem[] {
  const rank = ({ isRemnant, kind }: StockRow) => (isRemnant ? 0 : 2) + (kind === 'bend' ? 0 : 1);
  const items = problem.stock.flatMap((row) =>
    opened
      .filter(({ rowId }) => rowId === row.id)
      .toSorted((a, b) => a.copy - b.copy)
      .map((item) => ({ row, copy: item.copy, steps: stepsOf(row, item, problem.saw) })),
  );
  return items.toSorted((a, b) => rank(a.row) - rank(b.row));
}

function stepsOf(row: StockRow, { stretches }: CutStock, saw: SawSettings): readonly CutStep[] {
  const steps: CutStep[] = [];
  let since: Stretch[] = [];
  stretches.forEach((stretch, at) => {
    if (stretch.kind !== 'cut') {
      since.push(stretch);
      return;
    }
    const isWantedBefore = isWanted(stretches[at - 1]);
    // The line is drawn at what is wanted, its facing left on; the kerf lies on the other side of the line.
    const lineMm = isWantedBefore ? stretch.fromMm + saw.facingMm : stretch.toMm - saw.facingMm;
    const line = sawMark(row, Math.min(stretch.toMm, Math.max(stretch.fromMm, lineMm)));
    const widthMm = stretch.toMm - stretch.fromMm;
    steps.push({
      gives: giftsOf(row, since),
      saw: { line, kerfLies: isWantedBefore ? 'beyond' : 'before', widthMm },
    });
    since = [];
  });
  return since.length === 0 ? steps : [...steps, { gives: giftsOf(row, since), saw: null }];
}

function isWanted(stretch: Stretch | undefined): boolean {
  return stretch?.kind === 'piece' || stretch?.kind === 'remnant';
}

/** Stretches without a cut between them: pieces among them are one piece of tube. */
function giftsOf(row: StockRow, stretches: readonly Stretch[]): readonly CutGift[] {
  const pieceIds = stretches.flatMap((stretch) => (stretch.kind === 'piece' ? [stretch.pieceId] : []));
  const others = stretches.flatMap((stretch): readonly CutGift[] => {
    if (stretch.kind === 'remnant') return [{ kind: 'remnant', stock: remnantRow(row, stretch, row.id) }];
    return stretch.kind === 'scrap' ? [{ kind: 'scrap', lengthMm: stretch.toMm - stretch.fromMm }] : [];
  });
  return pieceIds.length === 0 ? others : [{ kind: 'pieces', pieceIds }, ...others];
}
