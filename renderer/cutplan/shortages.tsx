/** What is short, as a list to order by, on screen and as CSV. */

import {
  csvText,
  type LengthStyle,
  mmOf,
  type StockItem,
  safeFileName,
  stockItemWords,
  stockRows,
} from '../../core/index.ts';
import { downloadText } from '../host/files.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { cutWords } from '../ui/words/piece-words.ts';

interface Props {
  readonly rows: readonly StockItem[];
  /** Of the header, for the file's name. */
  readonly name: string;
  readonly style: LengthStyle;
}

export function Shortages({ rows, name, style }: Props) {
  if (rows.length === 0) return null;
  const save = () =>
    downloadText({
      fileName: safeFileName(`${name} shortages`, '.csv'),
      mediaType: 'text/csv',
      text: csvText(stockRows(rows)),
    });
  return (
    <section aria-label="Short">
      <div className="page-head">
        <h2>Short</h2>
        <Button onPress={save}>Export CSV</Button>
      </div>
      <div className="table-scroll">
        <table className="table cut-short">
          <thead>
            <tr>
              <th scope="col">Stock to order, at least</th>
              <th scope="col">Wall</th>
              <th scope="col" className="number">
                Pieces
              </th>
              <th scope="col">Which</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.id}>
                <td>
                  <FigureText text={stockItemWords(row)} />
                </td>
                <td>
                  <FigureText text={cutWords({ value: mmOf(row.wall), unit: 'mm' }, style)} />
                </td>
                <td className="number">{row.count}</td>
                <td>{row.note}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="muted">
        Net sizes: where several come from one stock item, each cut takes its kerf on top. The file is a stock list;
        import it on the shelf when the tube is there.
      </p>
    </section>
  );
}
