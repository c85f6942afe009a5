/** What is short, as a list to order by, on screen and as CSV. */

import { csvText, safeFileName, stockItemWords, stockRows, typedText } from '../../core/index.ts';
import { downloadText } from '../host/files.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import type { OrderRow } from './order-rows.ts';

interface Props {
  readonly rows: readonly OrderRow[];
  /** What the order comes to; null where nothing is known of it. */
  readonly words: string | null;
  /** Of the header, for the file's name. */
  readonly name: string;
}

export function Shortages({ rows, words, name }: Props) {
  if (rows.length === 0) return null;
  const save = () =>
    downloadText({
      fileName: safeFileName(`${name} shortages`, '.csv'),
      mediaType: 'text/csv',
      text: csvText(stockRows(rows.map(({ item }) => item))),
    });
  return (
    <section aria-label="Short">
      <div className="page-head">
        <h2>Short: what to order</h2>
        <Button onPress={save}>Export CSV</Button>
      </div>
      {words === null ? null : <p>{words}</p>}
      <div className="table-scroll">
        <table className="table cut-short">
          <thead>
            <tr>
              <th scope="col">Stock</th>
              <th scope="col">Wall</th>
              <th scope="col" className="number">
                Order
              </th>
              <th scope="col" className="number">
                Cost each
              </th>
              <th scope="col">Pieces</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ item, isNet }) => (
              <tr key={item.id}>
                <td>
                  <FigureText text={isNet ? `at least ${stockItemWords(item)}` : stockItemWords(item)} />
                </td>
                <td>
                  <FigureText text={typedText(item.wall)} />
                </td>
                <td className="number">{item.count}</td>
                <td className="number">{item.cost === undefined ? '–' : item.cost.toFixed(2)}</td>
                <td>{item.note}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="muted">
        {rows.some(({ isNet }) => isNet)
          ? 'At least: the shelf has no row that covers these. Sizes are net; where several come from one stock item, each cut takes its kerf on top. '
          : null}
        The file has the columns of a stock list. When the tube is there, add it to the counts on the shelf.
      </p>
    </section>
  );
}
