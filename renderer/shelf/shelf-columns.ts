/** The columns of the shelf, and reading a row of typed texts as a stock item. */

import {
  describeProblem,
  describeStockReading,
  formatTypedAngle,
  type LengthUnit,
  readStockRows,
  STOCK_COLUMNS,
  type StockColumn,
  type StockItem,
  typedText,
} from '../../core/index.ts';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';

export type ColumnId = Exclude<StockColumn, 'kind' | 'remnant'>;

export interface Column {
  readonly id: ColumnId;
  readonly name: string;
  /** Null: every kind has it. */
  readonly only: StockItem['kind'] | null;
  /** Taken over from the item before, since a shelf is entered in runs of the same tube. */
  readonly repeats: boolean;
  /** What might be typed there. */
  readonly example: string;
}

export const COLUMNS: readonly Column[] = [
  { id: 'material', name: 'Material', only: null, repeats: true, example: '304 stainless' },
  { id: 'od', name: 'OD', only: null, repeats: true, example: '1 3/4"' },
  { id: 'wall', name: 'Wall', only: null, repeats: true, example: '16 ga' },
  { id: 'clr', name: 'CLR', only: 'bend', repeats: true, example: '3"' },
  { id: 'angle', name: 'Angle', only: 'bend', repeats: false, example: '90 x4' },
  { id: 'leg_a', name: 'Leg A', only: 'bend', repeats: true, example: '4"' },
  { id: 'leg_b', name: 'Leg B', only: 'bend', repeats: true, example: '4"' },
  { id: 'length', name: 'Length', only: 'straight', repeats: false, example: '48 x2' },
  { id: 'count', name: 'Count', only: null, repeats: false, example: '1' },
  { id: 'least', name: 'Least', only: null, repeats: false, example: '' },
  { id: 'cost', name: 'Cost', only: null, repeats: true, example: '' },
  { id: 'note', name: 'Note', only: null, repeats: false, example: '' },
];

/** Whether this kind of item has the column. */
export function hasColumn(kind: StockItem['kind'], { only }: Column): boolean {
  return only === null || only === kind;
}

/** What stands in the fields of one row; a column that the kind does not have is absent. */
export type RowTexts = Partial<Readonly<Record<ColumnId, string>>>;

/** The texts that read back to exactly this item. */
export function textsOf(item: StockItem): RowTexts {
  const common = {
    material: item.material,
    od: typedText(item.od),
    wall: typedText(item.wall),
    count: String(item.count),
    least: numberText(item.least),
    cost: numberText(item.cost),
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

function numberText(number: number | undefined): string {
  return number === undefined ? '' : formatTypedAngle(number);
}

/** Why a row was refused: a sentence or more for each field at fault. */
export type RowProblems = Partial<Readonly<Record<ColumnId, string>>>;

export type ReadRow =
  | { readonly ok: true; readonly item: StockItem; readonly said: string }
  | { readonly ok: false; readonly problems: RowProblems };

interface RowContext {
  readonly id: string;
  readonly kind: StockItem['kind'];
  /** Unit of a number typed without one. */
  readonly unit: LengthUnit;
  /** Of a remnant, what it was cut from; absent on what was bought. */
  readonly cutFrom?: string | null | undefined;
}

/** In these a comma is a comma, or has a rule of its own. */
const NO_COMMA_HERE: ReadonlySet<ColumnId> = new Set(['material', 'note', 'cost']);

/**
 * Reads a row by the same rules as a stock list from a file. All that cannot be read is said at once; an empty count is 1.
 * `said` tells what was read by a rule, in sentences; empty when nothing was.
 */
export function readRow(texts: RowTexts, { id, kind, unit, cutFrom }: RowContext): ReadRow {
  const filled: Partial<Record<StockColumn, string>> = { kind };
  for (const column of COLUMNS) {
    const text = texts[column.id] ?? '';
    if (hasColumn(kind, column)) filled[column.id] = NO_COMMA_HERE.has(column.id) ? text : withDecimalPoints(text);
  }
  filled.count = filled.count?.trim() || '1';
  const row = STOCK_COLUMNS.map((column) => filled[column] ?? '');
  const { items, refused, said } = readStockRows([STOCK_COLUMNS, row], { unit, newId: () => id });
  const [item] = items;
  if (item !== undefined)
    return {
      ok: true,
      item: cutFrom === undefined ? item : { ...item, cutFrom },
      said: said.map(describeStockReading).join(' '),
    };
  const problems: Partial<Record<ColumnId, string>> = {};
  for (const { column, problem } of refused) {
    const at = COLUMNS.find((candidate) => candidate.id === column)?.id ?? 'material';
    problems[at] = [problems[at], describeProblem(problem)].filter(Boolean).join(' ');
  }
  return { ok: false, problems };
}

/** An item with some of its texts typed over. */
export function retyped(item: StockItem, typed: RowTexts, unit: LengthUnit): ReadRow {
  const { id, kind, cutFrom } = item;
  return readRow({ ...textsOf(item), ...typed }, { id, kind, unit, cutFrom });
}

/** `90 x4` in the field of what differs from row to row: four of them. */
export function withCount(texts: RowTexts, kind: StockItem['kind']): RowTexts {
  const id = kind === 'bend' ? 'angle' : 'length';
  const [, figure, count] = /^(.*\S)\s*[x×*]\s*([0-9]{1,6})$/i.exec((texts[id] ?? '').trim()) ?? [];
  return figure === undefined || count === undefined ? texts : { ...texts, [id]: figure, count };
}

/** The row that stands ready for the next item after this one was accepted. */
export function nextRow(texts: RowTexts, kind: StockItem['kind']): RowTexts {
  const kept = COLUMNS.filter((column) => column.repeats && hasColumn(kind, column));
  return Object.fromEntries(kept.map((column) => [column.id, texts[column.id] ?? '']));
}
