/** A shop with something to cut, and the request that a page sends for its cut plan. */

import { cutPiecesEdit } from '../../../core/edits/piece-state-edits.ts';
import type { Piece } from '../../../core/header/header.ts';
import { carryOut } from '../../../core/stock/plan/carry-out.ts';
import { cutPieceId, cutProblemOf, DEFAULT_SAW } from '../../../core/stock/plan/from-shelf.ts';
import { keptPlan, placedPieces } from '../../../core/stock/plan/kept-plan.ts';
import { planCuts } from '../../../core/stock/plan/plan-cuts.ts';
import type { AskedOf } from '../../../electron/bridge/contract.ts';
import { adding } from '../../shelf-changes.ts';
import { addPrimary, headerWith, openShop, type Shop, stockStraight, straight, temporaryFolder } from './shop.ts';

export const planned = (id: string, length: number): Piece => ({ ...straight(id, length), state: 'planned' });

/** A header of three planned straights, and two bars to cut them from. */
export async function shopWithPlan(folder = temporaryFolder({ fast: true })) {
  const shop = openShop(folder);
  await shop.must('start', {});
  const { header } = await headerWith(shop, [
    addPrimary('p1', [planned('s1', 20), planned('s2', 20), planned('s3', 6)]),
  ]);
  const { material } = header.settings.tube;
  const bar = { ...stockStraight('bar', material), od: header.settings.tube.od, wall: header.settings.tube.wall };
  await shop.must('changeShelf', adding(bar));
  return { shop, headerId: header.id };
}

let ids = 0;
function freshId(): string {
  ids += 1;
  return `row-${ids}`;
}

/** What the page sends for all planned pieces of these headers. */
export async function planRequest(shop: Shop, ...headerIds: readonly string[]): Promise<AskedOf<'carryOutCutPlan'>> {
  const opened = await Promise.all(headerIds.map((headerId) => shop.must('openHeader', { headerId })));
  const headers = opened.map(({ header }) => header);
  const { stock: known } = await shop.must('listStock', {});
  const stock = known.map(({ item }) => item);
  const problem = cutProblemOf(headers, stock, DEFAULT_SAW);
  const plan = planCuts(problem);
  const short = new Set(plan.short);
  const wanted = new Set(problem.pieces.map(({ id }) => id).filter((id) => !short.has(id)));
  const cut = opened.flatMap(({ header, revision }) => {
    const edit = cutPiecesEdit(header, (piece) => wanted.has(cutPieceId(header, piece)));
    return edit === null ? [] : [{ headerId: header.id, baseRevision: revision, edit }];
  });
  if (cut.length === 0) throw new Error('nothing to cut');
  const rows = new Set(plan.opened.map(({ rowId }) => rowId));
  return {
    headers: cut,
    changes: [...carryOut({ problem, plan, stock: known }, freshId)],
    known: known.filter(({ item }) => rows.has(item.id)).map(({ item, revision }) => ({ itemId: item.id, revision })),
    because: 'Cut plan: Bench four',
    kept: keptPlan({ pieces: placedPieces(headers), stock, problem, plan }),
  };
}
