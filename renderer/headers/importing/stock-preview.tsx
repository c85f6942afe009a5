/** Lines of a stock list that is about to be imported, and what each does to the shelf. */

import { describeStockReading, stockItemWords } from '../../../core/index.ts';
import { lineWords, type StockBesideShelf, takeInWords } from './stock-beside-shelf.ts';

/** More lines than anyone reads would only slow the window; the count is on the button. */
const SHOWN = 200;

export function StockPreview({ stock }: { readonly stock: StockBesideShelf }) {
  const { lines } = stock;
  const rest = lines.length - SHOWN;
  return (
    <>
      {lines.length > 0 && takeInWords(stock) === null ? (
        <p>Nothing to import: every line is on the shelf already with the same count.</p>
      ) : null}
      {stock.said.map((reading) => (
        <p key={reading.text} className="muted">
          {describeStockReading(reading)}
        </p>
      ))}
      <table className="table">
        <caption className="visually-hidden">Stock in the file</caption>
        <thead>
          <tr>
            <th scope="col">Item</th>
            <th scope="col" className="number">
              Count
            </th>
            <th scope="col">Shelf</th>
            <th scope="col">Note</th>
          </tr>
        </thead>
        <tbody>
          {lines.slice(0, SHOWN).map((line) => (
            <tr key={line.item.id}>
              <td>{stockItemWords(line.item)}</td>
              <td className="number">{line.item.count}</td>
              <td className={line.kind === 'same' ? 'muted' : undefined}>{lineWords(line)}</td>
              <td>{line.item.note}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {rest > 0 ? <p className="muted">And {rest} more.</p> : null}
    </>
  );
}
