/** What the header in hand needs in all, beside what lies on the shelf. */

import {
  formatAngle,
  formatLength,
  type Header,
  type HeaderNeed,
  headerNeeds,
  type LengthStyle,
  type StockItem,
  typedText,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { writeScreen } from '../../ui/screen.ts';
import { countOf } from '../../ui/words/spoken.ts';

interface Props {
  readonly header: Header;
  /** Null: the shelf was not read. */
  readonly stock: readonly StockItem[] | null;
}

export function NeedsTable({ header, stock }: Props) {
  if (stock === null) return <p className="muted">The shelf could not be read.</p>;
  const needs = headerNeeds(header, stock);
  if (needs.length === 0) return <p className="muted">Nothing is left to cut: every piece is cut already.</p>;
  return (
    <>
      <table className="table needs">
        <caption className="visually-hidden">What this header needs, and what the shelf has</caption>
        <thead>
          <tr>
            <th scope="col">Stock</th>
            <th scope="col" className="number">
              Pieces
            </th>
            <th scope="col" className="number">
              Needed
            </th>
            <th scope="col" className="number">
              On hand
            </th>
            <th scope="col">Shelf</th>
          </tr>
        </thead>
        <tbody>
          {needs.map((need) => (
            <NeedRow key={needKey(need)} need={need} style={header.settings.display} />
          ))}
        </tbody>
      </table>
      <p className="muted">
        Pieces still planned. Kerf and facing are not counted; the{' '}
        <a href={writeScreen({ kind: 'cutplan', headerId: header.id })}>cut plan</a> counts them.
      </p>
    </>
  );
}

function NeedRow({ need, style }: { readonly need: HeaderNeed; readonly style: LengthStyle }) {
  const words = shelfWords(need);
  return (
    <tr>
      <td>
        <FigureText text={needWords(need)} />
      </td>
      <td className="number">{need.pieces}</td>
      <td className="number">
        <FigureText text={amounts(need, style)[0]} />
      </td>
      <td className="number">
        <FigureText text={amounts(need, style)[1]} />
      </td>
      <td>
        {words === 'OK' ? null : <span aria-hidden="true">⚠ </span>}
        {words}
      </td>
    </tr>
  );
}

function needWords(need: HeaderNeed): string {
  const tube = typedText(need.tube.od);
  return need.kind === 'bend' ? `${tube} bends, CLR ${typedText(need.clr)}` : `${tube} straights`;
}

function needKey(need: HeaderNeed): string {
  return JSON.stringify([need.tube, need.kind === 'bend' ? need.clr : null]);
}

function amounts(need: HeaderNeed, style: LengthStyle): readonly [needed: string, onHand: string] {
  if (need.kind === 'bend') return [formatAngle(need.neededDeg), formatAngle(need.onHandDeg)];
  return [formatLength(need.neededMm, style), formatLength(need.onHandMm, style)];
}

/** "OK", "none", "2 pieces lack", "too little in all". */
function shelfWords(need: HeaderNeed): string {
  if (need.onHand === 0) return 'none';
  if (need.lacking > 0) return `${countOf(need.lacking, 'piece')} too large for any`;
  const isEnough = need.kind === 'bend' ? need.onHandDeg >= need.neededDeg : need.onHandMm >= need.neededMm;
  return isEnough ? 'OK' : 'too little in all';
}
