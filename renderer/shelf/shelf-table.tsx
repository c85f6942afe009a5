/** The shelf as one table in which every field can be typed over; only rows in sight are drawn. */

import { type FocusEvent, Fragment, useCallback, useMemo, useRef, useState } from 'react';
import { type ItemKind, NewItemRow } from './new-item-row.tsx';
import { pastedOver } from './pasted-cells.ts';
import { COLUMNS, type RowTexts } from './shelf-columns.ts';
import type { ShelfKeeper, Stored } from './shelf-keeper.ts';
import { type RowDoings, ShelfRow } from './shelf-row.tsx';
import { useRowsInView } from './use-rows-in-view.ts';

interface Props extends Omit<RowDoings, 'onCells' | 'keeper'> {
  readonly keeper: ShelfKeeper;
  /** What is shown, in its order. */
  readonly rows: readonly Stored[];
  /** What the first new row of each kind starts with. */
  readonly start: Readonly<Record<ItemKind, RowTexts>>;
}

export function ShelfTable({ rows, start, ...props }: Props) {
  const { keeper, unit } = props;
  const [kind, setKind] = useState<ItemKind>('bend');
  const scroller = useRef<HTMLDivElement>(null);
  const kept = useRowInHand(rows);
  const { places, rowHeight, onScroll } = useRowsInView(scroller, rows.length, kept.place);
  const doings = useDoings(props, rows);
  return (
    <section className="shelf-scroll" aria-label="Stock" ref={scroller} onScroll={onScroll}>
      <table className="table shelf-table" aria-rowcount={rows.length + 2}>
        <ShelfHead />
        <tbody onFocus={kept.onFocus}>
          <NewItemRow
            key={kind}
            kind={kind}
            unit={unit}
            start={start[kind]}
            onKind={setKind}
            onAdd={(items, said) => keeper.add(items, said)}
          />
          {places.map((place, at) => {
            const stored = rows[place];
            if (stored === undefined) return null;
            const skipped = place - (places[at - 1] ?? -1) - 1;
            return (
              <Fragment key={stored.item.id}>
                {skipped > 0 ? <Gap height={skipped * rowHeight} /> : null}
                <ShelfRow stored={stored} place={place} doings={doings} />
              </Fragment>
            );
          })}
          <Gap height={(rows.length - 1 - (places.at(-1) ?? -1)) * rowHeight} />
        </tbody>
      </table>
    </section>
  );
}

/** Room for rows that are not drawn. */
function Gap({ height }: { readonly height: number }) {
  if (height <= 0) return null;
  return (
    <tr className="shelf-gap">
      <td colSpan={COLUMNS.length + 2} style={{ height }} />
    </tr>
  );
}

function ShelfHead() {
  return (
    <>
      <colgroup>
        <col className="shelf-col-kind" />
        {COLUMNS.map((column) => (
          <col key={column.id} className={`shelf-col-${column.id}`} />
        ))}
        <col className="shelf-col-acts" />
      </colgroup>
      <thead>
        <tr aria-rowindex={1}>
          <th scope="col">Kind</th>
          {COLUMNS.map((column) => (
            <th key={column.id} scope="col">
              {column.name}
            </th>
          ))}
          <th scope="col">
            <span className="visually-hidden">What to do</span>
          </th>
        </tr>
      </thead>
    </>
  );
}

/** The row that was focused last is drawn wherever it is, since text in it may not be accepted yet. */
function useRowInHand(rows: readonly Stored[]) {
  const [itemId, setItemId] = useState<string | null>(null);
  const place = useMemo(
    () => (itemId === null ? -1 : rows.findIndex(({ item }) => item.id === itemId)),
    [rows, itemId],
  );
  const onFocus = ({ target }: FocusEvent) => setItemId(target.closest('tr')?.dataset['item'] ?? null);
  return { place, onFocus };
}

/** The same as long as nothing that they use changes, so that rows are not drawn again for nothing. */
function useDoings(
  { keeper, unit, onRemove, onWhy }: Omit<Props, 'rows' | 'start'>,
  rows: readonly Stored[],
): RowDoings {
  const latest = useRef({ rows, onRemove, onWhy });
  latest.current = { rows, onRemove, onWhy };
  const onCells = useCallback<RowDoings['onCells']>(
    async (text, { itemId, column }) => {
      const items = latest.current.rows.map(({ item }) => item);
      const below = items.slice(items.findIndex(({ id }) => id === itemId));
      const pasted = pastedOver(text, below, { from: column, unit });
      return pasted.ok ? await keeper.replace(pasted.items) : pasted.words;
    },
    [keeper, unit],
  );
  return useMemo(
    () => ({
      keeper,
      unit,
      onCells,
      onRemove: (stored) => latest.current.onRemove(stored),
      onWhy: (stored) => latest.current.onWhy(stored),
    }),
    [keeper, unit, onCells],
  );
}
