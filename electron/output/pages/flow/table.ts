/** Tables that go on over pages, their headings repeated on each. */

import type { PageMark } from '../../../bridge/page-messages.ts';
import { line, type Point, words } from '../marks.ts';
import type { PageFlow } from './page-flow.ts';
import { LINE_RATIO, textLines } from './text-lines.ts';

export interface Column {
  readonly heading: string;
  /** Share of the page's width that columns are given by; all of them together fill it. */
  readonly share: number;
  readonly align: 'start' | 'end';
}

export interface TableRow {
  /** As many as there are columns. */
  readonly cells: readonly string[];
  /** A line below the cells over the whole width, such as a note; empty: none. */
  readonly below?: string;
  /** Drawn in the cell of that column, whose own text is empty. */
  readonly picture?: {
    readonly column: number;
    readonly draw: (leftTop: Point, size: Point) => readonly PageMark[];
  };
}

export interface Table {
  /** Said again at the head of every further page. */
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly TableRow[];
}

const CELL_MM = 3;
const GAP_MM = 2.8;
const PAD_MM = 0.9;
const BELOW_INSET_MM = 6;
/** So many lines of a note stay with their row; a longer one goes on over the page. */
const BELOW_TOGETHER = 6;

interface Placed extends Column {
  readonly leftMm: number;
  readonly widthMm: number;
}

/** Draws the table from the flow's place on. A row is never broken over two pages; only a long note under it is. */
export function drawTable(flow: PageFlow, table: Table): void {
  const columns = placed(flow, table.columns);
  const headMm = heightOf(
    flow,
    columns,
    columns.map(({ heading }) => heading),
    true,
  );
  const first = table.rows[0];
  flow.need(headMm + (first === undefined ? 0 : rowHeight(flow, columns, first)));
  drawHead(flow, columns, headMm);
  for (const row of table.rows) {
    const goOn = (): void => {
      flow.newPage();
      flow.text(`${table.title}, continued`, { sizeMm: 3.4, isBold: true });
      flow.space(1);
      drawHead(flow, columns, headMm);
    };
    if (rowHeight(flow, columns, row) > flow.roomMm) goOn();
    drawRow(flow, columns, row, goOn);
  }
  flow.space(2);
}

/** What a table needs at least to begin: its headings and its first row, mm. */
export function tableStartMm(flow: PageFlow, table: Table): number {
  const columns = placed(flow, table.columns);
  const first = table.rows[0];
  const headMm = heightOf(
    flow,
    columns,
    columns.map(({ heading }) => heading),
    true,
  );
  return headMm + (first === undefined ? 0 : rowHeight(flow, columns, first));
}

function placed(flow: PageFlow, columns: readonly Column[]): readonly Placed[] {
  const whole = columns.reduce((sum, { share }) => sum + share, 0);
  const freeMm = flow.widthMm - GAP_MM * (columns.length - 1);
  let leftMm = flow.leftMm;
  return columns.map((column) => {
    const widthMm = (freeMm * column.share) / whole;
    const here = { ...column, leftMm, widthMm };
    leftMm += widthMm + GAP_MM;
    return here;
  });
}

function cellLines(flow: PageFlow, { widthMm }: Placed, text: string, isBold: boolean): readonly string[] {
  return textLines(flow.typeface, text, { widthMm, sizeMm: CELL_MM, isBold });
}

function heightOf(flow: PageFlow, columns: readonly Placed[], cells: readonly string[], isBold: boolean): number {
  const most = Math.max(1, ...columns.map((column, at) => cellLines(flow, column, cells[at] ?? '', isBold).length));
  return most * CELL_MM * LINE_RATIO + 2 * PAD_MM;
}

function belowLines(flow: PageFlow, { below = '' }: TableRow): readonly string[] {
  if (below === '') return [];
  return textLines(flow.typeface, below, { widthMm: flow.widthMm - BELOW_INSET_MM, sizeMm: CELL_MM, isBold: false });
}

function rowHeight(flow: PageFlow, columns: readonly Placed[], row: TableRow): number {
  const below = Math.min(BELOW_TOGETHER, belowLines(flow, row).length);
  return heightOf(flow, columns, row.cells, false) + below * CELL_MM * LINE_RATIO;
}

function drawHead(flow: PageFlow, columns: readonly Placed[], heightMm: number): void {
  flow.pale(flow.yMm, heightMm);
  drawCells(
    flow,
    columns,
    columns.map(({ heading }) => heading),
    true,
  );
  flow.yMm += heightMm;
}

function drawRow(flow: PageFlow, columns: readonly Placed[], row: TableRow, goOn: () => void): void {
  drawCells(flow, columns, row.cells, false);
  drawPicture(flow, columns, row);
  flow.yMm += heightOf(flow, columns, row.cells, false);
  for (const text of belowLines(flow, row)) {
    if (CELL_MM * LINE_RATIO > flow.roomMm) goOn();
    flow.draw(words(text, [flow.leftMm + BELOW_INSET_MM, flow.yMm + CELL_MM - PAD_MM], { sizeMm: CELL_MM }));
    flow.yMm += CELL_MM * LINE_RATIO;
  }
  const rule: readonly [number, number][] = [
    [flow.leftMm, flow.yMm],
    [flow.leftMm + flow.widthMm, flow.yMm],
  ];
  flow.draw(line(rule, { widthMm: 0.1, ink: 'grey' }));
}

function drawPicture(flow: PageFlow, columns: readonly Placed[], { cells, picture }: TableRow): void {
  const column = picture === undefined ? undefined : columns[picture.column];
  if (picture === undefined || column === undefined) return;
  const heightMm = heightOf(flow, columns, cells, false);
  flow.draw(...picture.draw([column.leftMm, flow.yMm], [column.widthMm, heightMm]));
}

function drawCells(flow: PageFlow, columns: readonly Placed[], cells: readonly string[], isBold: boolean): void {
  columns.forEach((column, at) => {
    const x = column.align === 'start' ? column.leftMm : column.leftMm + column.widthMm;
    cellLines(flow, column, cells[at] ?? '', isBold).forEach((text, lineAt) => {
      const y = flow.yMm + PAD_MM + CELL_MM + lineAt * CELL_MM * LINE_RATIO;
      if (text !== '') flow.draw(words(text, [x, y], { sizeMm: CELL_MM, isBold, align: column.align }));
    });
  });
}
