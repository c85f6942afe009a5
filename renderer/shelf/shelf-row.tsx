/** One row of the shelf: kind and marks, a field for each column that it has, and what can be done with it. */

import { ChartNoAxesColumn, X } from 'lucide-react';
import { memo } from 'react';
import { isLow, isRemnant, type LengthUnit, stockItemWords } from '../../core/index.ts';
import { ShelfCell } from './shelf-cell.tsx';
import { COLUMNS, type ColumnId, hasColumn, retyped, textsOf } from './shelf-columns.ts';
import type { ShelfKeeper, Stored } from './shelf-keeper.ts';

export interface RowDoings {
  readonly keeper: Pick<ShelfKeeper, 'change'>;
  readonly unit: LengthUnit;
  readonly onRemove: (stored: Stored) => void;
  /** To be told why its count is what it is. */
  readonly onWhy: (stored: Stored) => void;
  /** Cells of a spreadsheet, put in from this row and column on. */
  readonly onCells: (
    text: string,
    from: { readonly itemId: string; readonly column: ColumnId },
  ) => Promise<string | null>;
}

interface Props {
  readonly stored: Stored;
  /** Place in the list, from 0. */
  readonly place: number;
  readonly doings: RowDoings;
}

/** Drawn again only when it changes: the list scrolls through thousands. */
export const ShelfRow = memo(function ShelfRow({ stored, place, doings }: Props) {
  const { item, isDoubtful } = stored;
  const { unit, keeper } = doings;
  const texts = textsOf(item);
  const words = stockItemWords(item);
  return (
    <tr data-place={place} data-item={item.id} aria-rowindex={place + 3}>
      <td className="shelf-kind">
        {item.kind}
        {isRemnant(item) ? <span className="muted"> remnant</span> : null}
      </td>
      {COLUMNS.map((column) => (
        <td key={column.id} className={column.id === 'count' ? 'shelf-count' : undefined}>
          {hasColumn(item.kind, column) ? (
            <ShelfCell
              column={column}
              row={place + 1}
              of={words}
              text={texts[column.id] ?? ''}
              check={(text) => {
                const read = retyped(item, { [column.id]: text }, unit);
                return read.ok ? null : Object.values(read.problems).join(' ');
              }}
              onAccept={(text) => keeper.change(item.id, (now) => retyped(now, { [column.id]: text }, unit))}
              onRemove={() => doings.onRemove(stored)}
              onWhy={() => doings.onWhy(stored)}
              onCells={(text) => doings.onCells(text, { itemId: item.id, column: column.id })}
            />
          ) : null}
          {column.id === 'count' && isLow(item) ? <span className="shelf-mark">low</span> : null}
          {column.id === 'count' && isDoubtful ? <span className="shelf-mark">count again</span> : null}
        </td>
      ))}
      <td className="shelf-acts">
        <button
          type="button"
          aria-label={`Why this count: ${words}`}
          title="Why this count (Alt+Enter)"
          onClick={() => doings.onWhy(stored)}
        >
          <ChartNoAxesColumn aria-hidden="true" size={16} />
        </button>
        <button
          type="button"
          aria-label={`Remove ${words}`}
          title="Remove (Ctrl+Delete)"
          onClick={() => doings.onRemove(stored)}
        >
          <X aria-hidden="true" size={16} />
        </button>
      </td>
    </tr>
  );
});
