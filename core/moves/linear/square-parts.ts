/** What each shift can still do once others are chosen: the part of it that is square to them. A kernel in plain arrays: its tests run a million times in one search. */

import type { Shift } from './shift.ts';
import type { ShiftOption } from './shift-option.ts';

const FIGURES = 4;

/** Two columns point the same way when less than this share of one's square length is left beside the other. */
const SAME_DIRECTION = 1e-22;

/** Each of four figures within 1 leaves a square length of at most 4. */
const MOST_LEFT = 4 + 1e-9;

/**
 * Columns and offsets of all options in units in which every window is 1 wide to each side, at each depth less their parts along
 * the columns chosen so far (Gram and Schmidt, one chosen column at a time). So whether a set can work at all
 * is told from its last option by one product.
 */
export class SquareParts {
  private readonly count: number;
  private readonly hasColumn: readonly boolean[];
  /** Square lengths of the columns as they are. */
  private readonly whole: Float64Array;
  /** By depth, then option, then figure. */
  private readonly columns: Float64Array[] = [];
  private readonly offsets: Float64Array[] = [];
  /** What is off at each depth, less its parts along the columns chosen. */
  private readonly left: Float64Array[] = [];

  constructor(options: readonly ShiftOption[], scales: Shift, off: Shift, depths: number) {
    this.count = options.length;
    this.hasColumn = options.map(({ column }) => column !== null);
    this.whole = new Float64Array(this.count);
    for (let depth = 0; depth <= depths; depth += 1) {
      this.columns.push(new Float64Array(FIGURES * this.count));
      this.offsets.push(new Float64Array(FIGURES * this.count));
      this.left.push(new Float64Array(FIGURES));
    }
    const [columns, offsets, left] = [this.columns[0], this.offsets[0], this.left[0]];
    for (const [i, { column, offset }] of options.entries()) {
      for (let figure = 0; figure < FIGURES; figure += 1) {
        const scale = scales[figure] as number;
        const entry = (column?.[figure] ?? 0) * scale;
        if (columns !== undefined) columns[FIGURES * i + figure] = entry;
        if (offsets !== undefined) offsets[FIGURES * i + figure] = (offset[figure] as number) * scale;
        this.whole[i] = (this.whole[i] as number) + entry * entry;
      }
    }
    for (let figure = 0; figure < FIGURES; figure += 1) {
      if (left !== undefined) left[figure] = (off[figure] as number) * (scales[figure] as number);
    }
  }

  /** Whether what is left at this depth is within the windows as it is. */
  isWithin(depth: number): boolean {
    const left = this.left[depth] as Float64Array;
    let square = 0;
    for (let figure = 0; figure < FIGURES; figure += 1) square += (left[figure] as number) ** 2;
    return square <= MOST_LEFT;
  }

  /** Whether the option can bring what is left at this depth within the windows, whatever its value. */
  mayFinish(depth: number, option: number): boolean {
    const at = FIGURES * option;
    const columns = this.columns[depth] as Float64Array;
    const offsets = this.offsets[depth] as Float64Array;
    const left = this.left[depth] as Float64Array;
    const a = (left[0] as number) + (offsets[at] as number);
    const b = (left[1] as number) + (offsets[at + 1] as number);
    const c = (left[2] as number) + (offsets[at + 2] as number);
    const d = (left[3] as number) + (offsets[at + 3] as number);
    const square = a * a + b * b + c * c + d * d;
    if (!this.hasColumn[option]) return square <= MOST_LEFT;
    const x = columns[at] as number;
    const y = columns[at + 1] as number;
    const z = columns[at + 2] as number;
    const w = columns[at + 3] as number;
    const size = x * x + y * y + z * z + w * w;
    if (size <= SAME_DIRECTION * (this.whole[option] as number)) return square <= MOST_LEFT;
    const along = a * x + b * y + c * z + d * w;
    return square - (along * along) / size <= MOST_LEFT;
  }

  /** Makes up the next depth with this option chosen, for the options from `from` on. */
  choose(depth: number, option: number, from: number): void {
    const [columns, offsets, left] = [this.columns[depth], this.offsets[depth], this.left[depth]] as const;
    const [nextColumns, nextOffsets, nextLeft] = [
      this.columns[depth + 1],
      this.offsets[depth + 1],
      this.left[depth + 1],
    ] as const;
    if (columns === undefined || offsets === undefined || left === undefined) return;
    if (nextColumns === undefined || nextOffsets === undefined || nextLeft === undefined) return;
    const at = FIGURES * option;
    let size = 0;
    for (let figure = 0; figure < FIGURES; figure += 1) {
      nextLeft[figure] = (left[figure] as number) + (offsets[at + figure] as number);
      size += (columns[at + figure] as number) ** 2;
    }
    const isNew = this.hasColumn[option] === true && size > SAME_DIRECTION * (this.whole[option] as number);
    const axis = { columns, at, perSize: isNew ? 1 / size : 0 };
    squared(nextLeft, nextLeft, 0, axis);
    for (let other = from; other < this.count; other += 1) {
      squared(columns, nextColumns, FIGURES * other, axis);
      squared(offsets, nextOffsets, FIGURES * other, axis);
    }
  }
}

interface Axis {
  readonly columns: Float64Array;
  readonly at: number;
  /** One over its square length; 0 where it is no new direction. */
  readonly perSize: number;
}

/** Writes four figures from one array to the other, less their part along the axis. */
function squared(from: Float64Array, to: Float64Array, at: number, { columns, at: axis, perSize }: Axis): void {
  const a = from[at] as number;
  const b = from[at + 1] as number;
  const c = from[at + 2] as number;
  const d = from[at + 3] as number;
  const x = columns[axis] as number;
  const y = columns[axis + 1] as number;
  const z = columns[axis + 2] as number;
  const w = columns[axis + 3] as number;
  const part = (a * x + b * y + c * z + d * w) * perSize;
  to[at] = a - part * x;
  to[at + 1] = b - part * y;
  to[at + 2] = c - part * z;
  to[at + 3] = d - part * w;
}
