/** Cells of a row of stock while it is read, and what is wrong with them. */

import type { Length, LengthUnit } from '../../units/length.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { parseLength } from '../../units/parse-length.ts';
import { clipped } from '../../units/read-quantity.ts';
import type { UnitsProblem } from '../../units/units-problem.ts';
import { parseCost } from '../parse-cost.ts';
import { parseWall } from '../parse-wall.ts';
import type { StockProblem } from '../stock-problem.ts';
import type { StockColumn } from './stock-columns.ts';
import type { StockReading } from './stock-reading.ts';

/** A problem and the column that it is about. */
export interface CellFault {
  readonly column: StockColumn | null;
  readonly problem: StockProblem | UnitsProblem;
}

export interface Cell {
  readonly text: string;
  /** What a bare number in it is in. */
  readonly unit: LengthUnit;
}

/** A row by column; a column that the table does not have is there as an empty cell. */
export type Cells = ReadonlyMap<StockColumn, Cell>;

type Expected = Extract<StockProblem, { kind: 'stockCellRefused' }>['expected'];

export function cellRefused(cells: Cells, column: StockColumn, expected: Expected): CellFault {
  const found = clipped((cells.get(column)?.text ?? '').trim());
  if (found === '') return { column, problem: { kind: 'stockCellEmpty', column } };
  return { column, problem: { kind: 'stockCellRefused', column, found, expected } };
}

/** A stand-in for a cell already found at fault; the item that it is in is never kept. */
const UNREAD: Length = { value: 1, unit: 'mm' };

/** Reads the cells of one row; what is wrong, and what was read by a rule, is gathered on the way. */
export class CellReader {
  readonly cells: Cells;
  readonly faults: CellFault[] = [];
  readonly said: StockReading[] = [];

  constructor(cells: Cells) {
    this.cells = cells;
  }

  /** Without outer space. */
  text(column: StockColumn): string {
    return (this.cells.get(column)?.text ?? '').trim();
  }

  length(column: StockColumn): Length {
    if (this.#isEmpty(column)) return UNREAD;
    const length = parseLength(this.text(column), this.#unit(column));
    if (length.ok) return length.value;
    this.#refuse(column, length.problems);
    return UNREAD;
  }

  /** Many bends have no legs; an empty cell says so. */
  leg(column: 'leg_a' | 'leg_b'): Length {
    return this.text(column) === '' ? { value: 0, unit: this.#unit(column) } : this.length(column);
  }

  wall(): Length {
    if (this.#isEmpty('wall')) return UNREAD;
    const text = this.text('wall');
    const read = parseWall(text, this.#unit('wall'));
    if (!read.ok) {
      this.#refuse('wall', read.problems);
      return UNREAD;
    }
    if (read.value.gauge !== null) this.said.push({ kind: 'gauge', text, wall: read.value.wall });
    return read.value.wall;
  }

  angleDeg(): number {
    if (this.#isEmpty('angle')) return 1;
    const angle = parseAngle(this.text('angle'));
    if (angle.ok) return angle.value;
    this.#refuse('angle', angle.problems);
    return 1;
  }

  count(): number {
    return this.#isEmpty('count') ? 0 : this.#whole('count');
  }

  /** What an item has beside what every item has. */
  extras(): { least?: number; cost?: number; cutFrom?: null } {
    const least = this.text('least') === '' ? 0 : this.#whole('least');
    const cost = this.#cost();
    return {
      ...(least === 0 ? {} : { least }),
      ...(cost === null ? {} : { cost }),
      ...(this.#isRemnant() ? { cutFrom: null } : {}),
    };
  }

  #whole(column: 'count' | 'least'): number {
    const text = this.text(column);
    if (/^[0-9]{1,6}$/.test(text)) return Number(text);
    this.faults.push(cellRefused(this.cells, column, 'count'));
    return 0;
  }

  #cost(): number | null {
    const text = this.text('cost');
    if (text === '') return null;
    const read = parseCost(text);
    if (!read.ok) {
      this.#refuse('cost', read.problems);
      return null;
    }
    const { cost, sign, hasDecimalComma } = read.value;
    if (sign !== null || hasDecimalComma) this.said.push({ kind: 'cost', text, cost, sign });
    return cost;
  }

  #isRemnant(): boolean {
    const text = this.text('remnant').toLowerCase();
    if (['yes', 'y', 'true', '1', 'x'].includes(text)) return true;
    if (!['', 'no', 'n', 'false', '0'].includes(text)) this.faults.push(cellRefused(this.cells, 'remnant', 'yesOrNo'));
    return false;
  }

  #unit(column: StockColumn): LengthUnit {
    return this.cells.get(column)?.unit ?? 'mm';
  }

  #isEmpty(column: StockColumn): boolean {
    if (this.text(column) !== '') return false;
    this.faults.push({ column, problem: { kind: 'stockCellEmpty', column } });
    return true;
  }

  #refuse(column: StockColumn, problems: readonly (StockProblem | UnitsProblem)[]): void {
    this.faults.push(...problems.map((problem) => ({ column, problem })));
  }
}
