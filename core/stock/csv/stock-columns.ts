/** The columns of a stock list as it travels in a CSV file. */

/**
 * In the order written. Lengths carry their unit in the cell (`1 3/4 in`, `70 mm`); angles are degrees.
 * `least` and `cost` may be empty, and so may `remnant`, which is `yes` on what is left over from a cut.
 * `clr`, `angle`, `leg_a` and `leg_b` belong to bends, `length` to straights; an empty leg is a leg of zero.
 */
export const STOCK_COLUMNS = [
  'kind',
  'material',
  'od',
  'wall',
  'clr',
  'angle',
  'leg_a',
  'leg_b',
  'length',
  'count',
  'note',
  'least',
  'cost',
  'remnant',
] as const;

export type StockColumn = (typeof STOCK_COLUMNS)[number];

/** Without these nothing can be made of a row. */
export const NEEDED_COLUMNS: readonly StockColumn[] = ['kind', 'material', 'od', 'wall', 'count'];

/** Columns that hold a length, whose name may say the unit of its bare numbers: `od_mm`, `wall (in)`. */
export const LENGTH_COLUMNS: readonly StockColumn[] = ['od', 'wall', 'clr', 'leg_a', 'leg_b', 'length'];
