/** Items of a stock list that is about to be imported. */

import type { StockItem } from '../../../core/index.ts';
import { itemWords } from '../../ui/words/item-words.ts';

/** More lines than anyone reads would only slow the window; the count is on the button. */
const SHOWN = 200;

export function StockPreview({ items }: { readonly items: readonly StockItem[] }) {
  const rest = items.length - SHOWN;
  return (
    <>
      <table className="table">
        <caption className="visually-hidden">Stock in the file</caption>
        <thead>
          <tr>
            <th scope="col">Item</th>
            <th scope="col" className="number">
              Count
            </th>
            <th scope="col">Note</th>
          </tr>
        </thead>
        <tbody>
          {items.slice(0, SHOWN).map((item) => (
            <tr key={item.id}>
              <td>{itemWords(item)}</td>
              <td className="number">{item.count}</td>
              <td>{item.note}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {rest > 0 ? <p className="muted">And {rest} more.</p> : null}
    </>
  );
}
