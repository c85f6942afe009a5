/** The columns of the shelf, and reading a row of typed texts as a stock item. */

import {
  describeProblem,
  formatTypedAngle,
  type LengthUnit,
  readStockRows,
  STOCK_COLUMNS,
  type StockColumn,
  type StockItem,
  typedText,
} from '../../core/index.ts';

export type ColumnId = Exclude<StockColumn, 'kind'>;

export interface Column {
  readonly id: ColumnId;
  readonly name: string;
  /** Taken over from the item before, since a shelf is entered in runs of the same tube. */
  readonly repeats: boolean;
  /** What might be typed there. */
  readonly example: string;
}

const MATERIAL: Column = { id: 'material', name: 'Material', repeats: true, example: '304 stainless' };
const OD: Column = { id: 'od', name: 'Tube OD', repeats: true, example: '1 3/4"' };
const WALL: Column = { id: 'wall', name: 'Wall', repeats: true, example: '0.065"' };
const COUNT: Column = { id: 'count', name: 'Count', repeats: false, example: '1' };
const NOTE: Column = { id: 'note', name: 'Note', repeats: false, example: '' };

export const COLUMNS: Readonly<Record<StockItem['kind'], readonly Column[]>> = {
  bend: [
    MATERIAL,
    OD,
    WALL,
    { id: 'clr', name: 'CLR', repeats: true, example: '3"' },
    { id: 'angle', name: 'Angle', repeats: false, example: '90°' },
    { id: 'leg_a', name: 'Leg A', repeats: true, example: '4"' },
    { id: 'leg_b', name: 'Leg B', repeats: true, example: '4"' },
    COUNT,
    NOTE,
  ],
  straight: [MATERIAL, OD, WALL, { id: 'length', name: 'Length', repeats: false, example: '48"' }, COUNT, NOTE],
};

/** What stands in the fields of one row; a column that the kind does not have is absent. */
export type RowTexts = Partial<Readonly<Record<ColumnId, string>>>;

/** The texts that read back to exactly this item. */
export function textsOf(item: StockItem): RowTexts {
  const common = {
    material: item.material,
    od: typedText(item.od),
    wall: typedText(item.wall),
    count: String(item.count),
    note: item.note,
  };
  if (item.kind === 'straight') return { ...common, length: typedText(item.length) };
  return {
    ...common,
    clr: typedText(item.clr),
    angle: `${formatTypedAngle(item.angleDeg)}°`,
    leg_a: typedText(item.legs[0]),
    leg_b: typedText(item.legs[1]),
  };
}

/** Why a row was refused: a sentence or more for each field at fault. */
export type RowProblems = Partial<Readonly<Record<ColumnId, string>>>;

export type ReadRow =
  | { readonly ok: true; readonly item: StockItem }
  | { readonly ok: false; readonly problems: RowProblems };

interface RowContext {
  readonly id: string;
  readonly kind: StockItem['kind'];
  /** Unit of a number typed without one. */
  readonly unit: LengthUnit;
}

/** Reads a row by the same rules as a stock list from a file. All that cannot be read is said at once; an empty count is 1. */
export function readRow(texts: RowTexts, { id, kind, unit }: RowContext): ReadRow {
  const count = texts.count?.trim() || '1';
  const filled: Partial<Record<StockColumn, string>> = { ...texts, kind, count };
  const row = STOCK_COLUMNS.map((column) => filled[column] ?? '');
  const { items, refused } = readStockRows([STOCK_COLUMNS, row], { unit, newId: () => id });
  const [item] = items;
  if (item !== undefined) return { ok: true, item };
  const problems: Partial<Record<ColumnId, string>> = {};
  for (const { column, problem } of refused) {
    const at = COLUMNS[kind].find((candidate) => candidate.id === column)?.id ?? 'material';
    problems[at] = [problems[at], describeProblem(problem)].filter(Boolean).join(' ');
  }
  return { ok: false, problems };
}

/** The row that stands ready for the next item after this one was accepted. */
export function nextRow(texts: RowTexts, kind: StockItem['kind']): RowTexts {
  const kept = COLUMNS[kind].filter((column) => column.repeats).map((column) => [column.id, texts[column.id] ?? '']);
  return Object.fromEntries(kept);
}
