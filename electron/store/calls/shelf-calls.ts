/** The calls about stock: the list, one item at a time, many from a file, and out to a file. */

import { csvText, type Problem, type Result, stockRows, success } from '../../../core/index.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import type { CallContext } from './call-context.ts';

type ShelfCalls = Pick<Handlers, 'listStock' | 'saveStockItem' | 'removeStockItem' | 'addStockItems' | 'exportStock'>;

export function shelfCalls({ connection, host }: CallContext): ShelfCalls {
  return {
    listStock: () => connection.read(({ stock }) => ({ stock: stock.list() })),
    saveStockItem: ({ item, baseRevision }) =>
      connection.use(({ stock, inTransaction }) =>
        inTransaction(() => (baseRevision === null ? stock.add(item) : stock.replace(item, baseRevision))),
      ),
    removeStockItem: ({ itemId, baseRevision }) =>
      connection.use(({ stock, inTransaction }) => inTransaction(() => stock.remove(itemId, baseRevision))),
    /** All items, or none. */
    addStockItems: ({ items }) =>
      connection.use(({ stock, inTransaction }) =>
        inTransaction<Record<never, never>, Problem>(() => {
          for (const item of items) {
            const added: Result<unknown, Problem> = stock.add(item);
            if (!added.ok) return added;
          }
          return success({});
        }),
      ),
    async exportStock() {
      const items = connection.read(({ stock }) => stock.list().map(({ item }) => item));
      if (!items.ok) return items;
      return success(await host.saveFile('stock.csv', 'text/csv', csvText(stockRows(items.value))));
    },
  };
}
