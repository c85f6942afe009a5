/** The calls about stock: the list, one item at a time, many from a file, and out to a file. */

import type * as z from 'zod';
import { csvText, failure, type Problem, type Result, stockRows, success } from '../../../core/index.ts';
import { contract, type RequestOf } from '../../bridge/contract.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import type { Stock } from '../shelf/stock-table.ts';
import type { CallContext } from './call-context.ts';

/** As many as a list of stock may have that is read from a file: what is exported can be read back in one go. */
const MOST_ITEMS = 10_000;

export function shelfCalls({ connection, host }: CallContext) {
  /** Once for a request, however often it is sent. */
  const changeOnce = <Answer>(
    request: { readonly requestId: string },
    answers: z.ZodType<Answer>,
    change: (stock: Stock) => Result<Answer, Problem>,
  ) =>
    connection.use(({ stock, requests, inTransaction }) =>
      inTransaction(() =>
        requests.once(request, answers, () => {
          const most = Math.max(stock.count(), MOST_ITEMS);
          const changed = change(stock);
          return stock.count() > most ? failure({ kind: 'tooMany', path: ['shelf'], limit: MOST_ITEMS }) : changed;
        }),
      ),
    );
  return {
    listStock: () => connection.read(({ stock }) => ({ stock: stock.list() })),
    saveStockItem: (request) =>
      changeOnce(request, contract.saveStockItem.response, (stock) =>
        request.baseRevision === null ? stock.add(request.item) : stock.replace(request.item, request.baseRevision),
      ),
    removeStockItem: (request) =>
      changeOnce(request, contract.removeStockItem.response, (stock) =>
        stock.remove(request.itemId, request.baseRevision),
      ),
    addStockItems: (request) => changeOnce(request, contract.addStockItems.response, (stock) => takeIn(stock, request)),
    async exportStock() {
      const items = connection.read(({ stock }) => stock.list().map(({ item }) => item));
      if (!items.ok) return items;
      return success(await host.saveFile('stock.csv', 'text/csv', csvText(stockRows(items.value))));
    },
  } satisfies Partial<Handlers>;
}

/** All of it, or nothing: the transaction around it is taken back when one item is refused. */
function takeIn(
  stock: Stock,
  { items, changed = [] }: RequestOf<'addStockItems'>,
): Result<Record<never, never>, Problem> {
  for (const item of items) {
    const added = stock.add(item);
    if (!added.ok) return added;
  }
  for (const { item, revision } of changed) {
    const replaced = stock.replace(item, revision);
    if (!replaced.ok) return replaced;
  }
  return success({});
}
