/** The cut list on the build sheet: the plans that were carried out, each stock item with its cuts in the order of work. */

import {
  type CutListItem,
  type CutStep,
  cutList,
  giftWords,
  type KeptPlan,
  kerfWords,
  type LengthStyle,
  markWords,
  type PlacedPiece,
  type PlacedPieces,
  stockRowWords,
  writeOnWords,
} from '../../../core/index.ts';
import type { PageFlow } from '../pages/flow/page-flow.ts';
import { drawTable, type Table, type TableRow, tableStartMm } from '../pages/flow/table.ts';

const HEADING_MM = 4.2;
const ITEM_MM = 3.4;
const WORDS_MM = 2.8;
const LEGEND =
  'Mark all lines of an item before its first cut: they are measured on the whole item. On a bend, arcs run from where the bend begins at the first leg. Beyond the line is towards the other end.';

/** Nothing where no plan was carried out. */
export function drawCutLists(flow: PageFlow, plans: readonly KeptPlan[], style: LengthStyle): void {
  plans.forEach((kept, at) => {
    const title = plans.length === 1 ? 'Cut list' : `Cut list ${at + 1} of ${plans.length}`;
    flow.space(3);
    flow.heading(title, { sizeMm: HEADING_MM, followedByMm: 30 });
    flow.text(LEGEND, { sizeMm: WORDS_MM });
    for (const [index, work] of cutList(kept.problem, kept.plan).entries()) {
      drawItem(flow, { kept, work, number: index + 1 }, style);
    }
  });
}

export interface ItemOfPlan {
  readonly kept: KeptPlan;
  readonly work: CutListItem;
  /** From 1, in the order of work. */
  readonly number: number;
}

function drawItem(flow: PageFlow, item: ItemOfPlan, style: LengthStyle): void {
  const title = itemTitle(item, style);
  const table: Table = {
    title,
    columns: [
      { heading: 'Cut', share: 14, align: 'start' },
      { heading: 'Line', share: 62, align: 'start' },
      { heading: 'Comes off', share: 64, align: 'start' },
      { heading: 'Write on it', share: 40, align: 'start' },
    ],
    rows: item.work.steps.map((step, at): TableRow => ({ cells: cutCells(item, { step, at }, style) })),
  };
  flow.space(1);
  flow.heading(title, { sizeMm: ITEM_MM, followedByMm: tableStartMm(flow, table) });
  drawTable(flow, table);
}

/** `Stock 2: 1 3/4" bend, CLR 3", 90°, first leg 2", other leg 2"`. */
export function itemTitle({ work, number }: ItemOfPlan, style: LengthStyle): string {
  return `Stock ${number}: ${stockRowWords(work.row, style)}`;
}

/** Its number, where the saw goes, what comes off, and what to write on that. */
export function cutCells(
  { kept, work, number }: ItemOfPlan,
  { step, at }: { readonly step: CutStep; readonly at: number },
  style: LengthStyle,
): readonly string[] {
  const pieces: PlacedPieces = new Map(kept.pieces.map((placed: PlacedPiece) => [placed.id, placed]));
  const { saw } = kept.problem;
  const left = work.steps.length === 1 ? 'no cut: taken whole' : 'no cut: what is left';
  const where = step.saw === null ? left : `${markWords(step.saw.line, style)}; ${kerfWords(step, saw, style)}`;
  return [
    `${number}.${at + 1}`,
    where,
    step.gives.map((gift) => giftWords(gift, pieces, style)).join('; '),
    step.gives
      .map((gift) => writeOnWords(gift, pieces, style))
      .filter((words) => words !== '')
      .join('; '),
  ];
}
