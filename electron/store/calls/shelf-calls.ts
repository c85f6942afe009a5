/** The calls about stock: what lies on the shelf, steps that change it, why a count is what it is, and the list as a file. */

import { csvText, isOfSize, stockRows, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { turnShelfBack } from '../cut-plans/turn-plan.ts';
import type { ExplainedMovement } from '../shelf/movement-table.ts';
import type { CallContext } from './call-context.ts';
import { shelfStepOnce } from './shelf-step-once.ts';

export function shelfCalls({ connection, host, clock }: CallContext) {
  const stepOnce = shelfStepOnce({ connection, clock });
  return {
    listStock: ({ sizes }) =>
      connection.read(({ shelf }) => {
        const stock = shelf.list();
        const wanted = sizes && stock.filter(({ item }) => sizes.some((size) => isOfSize(item, size)));
        return { stock: wanted ?? stock, history: shelf.history() };
      }),
    changeShelf: (request) =>
      stepOnce(request, ({ shelf }, made) => shelf.commit(request.changes, request.because, made)),
    turnShelfBack: (request) => stepOnce(request, (tables, made) => turnShelfBack(tables, request, made)),
    readShelfHistory: () => connection.read(({ shelf }) => shelf.history()),
    readMovements: ({ itemId }) =>
      connection.read(({ shelf }) => ({ movements: explanation(shelf.movementsOf(itemId), shelf.countOf(itemId)) })),
    async exportStock() {
      const items = connection.read(({ shelf }) => shelf.list().map(({ item }) => item));
      if (!items.ok) return items;
      return success(await host.saveFile('stock.csv', 'text/csv', csvText(stockRows(items.value))));
    },
  } satisfies Partial<Handlers>;
}

/** From the count as it is backwards; movements come with the latest first. */
function explanation(movements: readonly ExplainedMovement[], count: number): ResponseOf<'readMovements'>['movements'] {
  let left = count;
  return movements.map(({ movement: { pieces, reason, moved_at }, label }) => {
    const after = left;
    left -= pieces;
    return { pieces, reason, movedAt: new Date(moved_at).toISOString(), label, left: after };
  });
}
