/** What carrying out a cut plan does to the stock book: what is opened goes, and what is kept of it comes back as remnants. */

import { type Length, MM_PER_INCH } from '../../units/length.ts';
import type { ShelfChange } from '../ledger/shelf-change.ts';
import { isRemnant, type StockItem } from '../stock-item.ts';
import type { CutPlan } from './cut-plan.ts';
import { type CutProblem, FIT, type StockRow } from './cut-problem.ts';
import { remnantRow } from './remnant-stock.ts';

/** A row of the shelf as the plan was made with it. */
export interface KnownStock {
  readonly item: StockItem;
  /** The book refuses a plan that was made with another. */
  readonly revision: number;
}

interface Carried {
  readonly problem: Pick<CutProblem, 'stock'>;
  readonly plan: Pick<CutPlan, 'opened'>;
  readonly stock: readonly KnownStock[];
}

/**
 * Changes of the shelf for a plan that is sawn: each opened item cut, each remnant a row of its own that names the row it
 * came from, alike ones together. A remnant row of which nothing is left leaves the shelf.
 *
 * Remnants are rounded down to what can be measured (1/64 in or 0.1 mm, 0.1 degree), so that the shelf never holds more
 * than lies there; what that leaves nothing of is scrap.
 * @param newId for each remnant row
 */
export function carryOut({ problem, plan, stock }: Carried, newId: () => string): readonly ShelfChange[] {
  return stock.flatMap(({ item, revision }): readonly ShelfChange[] => {
    const opened = plan.opened.filter(({ rowId }) => rowId === item.id);
    const row = problem.stock.find(({ id }) => id === item.id);
    if (opened.length === 0 || row === undefined) return [];
    const remnants = opened.flatMap(({ stretches }) =>
      stretches
        .filter(({ kind }) => kind === 'remnant')
        .flatMap((stretch) => remnantItem(item, remnantRow(row, stretch, item.id))),
    );
    const isUsedUp = isRemnant(item) && item.count === opened.length;
    return [
      { kind: 'move', itemId: item.id, pieces: opened.length, reason: 'cut' },
      // The cut before it has made the row one revision older.
      ...(isUsedUp ? ([{ kind: 'retire', itemId: item.id, revision: revision + 1 }] as const) : []),
      ...alikeTogether(remnants).map((remnant) => ({ kind: 'add', item: { ...remnant, id: newId() } }) as const),
    ];
  });
}

/** As the shelf counts it, one of it and without an id; none where rounding leaves nothing. */
function remnantItem(from: StockItem, row: StockRow): readonly StockItem[] {
  const { material, od, wall } = from;
  const { unit } = from.kind === 'straight' ? from.length : from.clr;
  const common = { id: '', material, od, wall, count: 1, note: '', cutFrom: from.id };
  if (row.kind === 'straight') {
    const length = roundedDown(row.lengthMm, unit);
    return length.value > 0 ? [{ ...common, kind: 'straight', length }] : [];
  }
  const angleDeg = downTo(row.angleDeg, 10);
  if (angleDeg <= 0 || from.kind !== 'bend') return [];
  const [first, other] = row.legsMm;
  return [
    { ...common, kind: 'bend', clr: from.clr, angleDeg, legs: [roundedDown(first, unit), roundedDown(other, unit)] },
  ];
}

function roundedDown(mm: number, unit: Length['unit']): Length {
  return unit === 'in' ? { value: downTo(mm / MM_PER_INCH, 64), unit } : { value: downTo(mm, 10), unit };
}

/** To a whole number of parts; what is short of one by rounding alone counts as whole. */
function downTo(value: number, parts: number): number {
  return Math.floor(value * parts + FIT * parts) / parts;
}

function alikeTogether(items: readonly StockItem[]): readonly StockItem[] {
  const bySize = new Map<string, StockItem>();
  for (const item of items) {
    const size = JSON.stringify(item);
    const known = bySize.get(size);
    bySize.set(size, known === undefined ? item : { ...known, count: known.count + 1 });
  }
  return [...bySize.values()];
}
