/** All bends, or all straights, as a table in which every field can be typed over. */

import { type LengthUnit, type StockItem, stockItemWords } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { NewItemRow } from './new-item-row.tsx';
import { ShelfCell } from './shelf-cell.tsx';
import { COLUMNS, type ColumnId, readRow, textsOf } from './shelf-columns.ts';
import type { ShelfKeeper, Stored } from './shelf-keeper.ts';

interface Props {
  readonly kind: StockItem['kind'];
  readonly title: string;
  readonly unit: LengthUnit;
  readonly stock: readonly Stored[];
  readonly keeper: Pick<ShelfKeeper, 'add' | 'change'>;
  readonly onRemove: (item: StockItem) => void;
}

export function ShelfTable(props: Props) {
  const { kind, title, unit, stock, keeper } = props;
  return (
    <section aria-label={title}>
      <h2>{title}</h2>
      <table className="table shelf-table">
        <colgroup>
          {COLUMNS[kind].map((column) => (
            <col key={column.id} className={`shelf-col-${column.id}`} />
          ))}
          <col />
        </colgroup>
        <thead>
          <tr>
            {COLUMNS[kind].map((column) => (
              <th key={column.id} scope="col">
                {column.name}
              </th>
            ))}
            <th scope="col">
              <span className="visually-hidden">What to do</span>
            </th>
          </tr>
        </thead>
        <tbody>
          <NewItemRow kind={kind} unit={unit} onAdd={(item) => keeper.add([item])} />
          {stock.map(({ item }, at) => (
            <ItemRow key={item.id} {...props} item={item} row={at + 1} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

function ItemRow({
  kind,
  unit,
  keeper,
  onRemove,
  item,
  row,
}: Props & { readonly item: StockItem; readonly row: number }) {
  const texts = textsOf(item);
  const words = stockItemWords(item);
  const changed = (now: StockItem, column: ColumnId, text: string) =>
    readRow({ ...textsOf(now), [column]: text }, { id: item.id, kind, unit });
  return (
    <tr>
      {COLUMNS[kind].map((column) => (
        <td key={column.id} data-label={column.name}>
          <ShelfCell
            column={column}
            row={row}
            of={words}
            text={texts[column.id] ?? ''}
            check={(text) => {
              const read = changed(item, column.id, text);
              return read.ok ? null : Object.values(read.problems).join(' ');
            }}
            onAccept={(text) => keeper.change(item.id, (now) => changed(now, column.id, text))}
            onRemove={() => onRemove(item)}
          />
        </td>
      ))}
      <td>
        <Button look="quiet" aria-label={`Remove ${words}`} onPress={() => onRemove(item)}>
          Remove
        </Button>
      </td>
    </tr>
  );
}
