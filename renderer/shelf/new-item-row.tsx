/** The first row of the shelf: type an item, press Enter, go on with the next. */

import { type ClipboardEvent, type KeyboardEvent, type RefObject, useRef, useState } from 'react';
import type { LengthUnit, StockItem } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { freshId } from '../ui/random-id.ts';
import { pastedRows } from './pasted-cells.ts';
import {
  COLUMNS,
  type ColumnId,
  hasColumn,
  nextRow,
  type RowProblems,
  type RowTexts,
  readRow,
  withCount,
} from './shelf-columns.ts';
import { focusCell, moveDown } from './shelf-keys.ts';

export type ItemKind = StockItem['kind'];

interface Props {
  readonly kind: ItemKind;
  readonly unit: LengthUnit;
  /** What the first row of each kind starts with. */
  readonly start: RowTexts;
  readonly onKind: (kind: ItemKind) => void;
  /** Null once they are on disk; else why not. */
  readonly onAdd: (items: readonly StockItem[], said: string) => Promise<string | null>;
}

/** Where the next row of a kind is begun: what came before it mostly repeats. */
export function firstField(kind: ItemKind, texts: RowTexts): ColumnId {
  if ((texts.material ?? '') === '') return 'material';
  return kind === 'bend' ? 'angle' : 'length';
}

function useNewItem({ kind, unit, start, onAdd }: Props, table: RefObject<HTMLTableRowElement | null>) {
  /** Null until something is typed. */
  const [typed, setTexts] = useState<RowTexts | null>(null);
  const texts = typed ?? start;
  const [problems, setProblems] = useState<RowProblems>({});
  const focus = (column: ColumnId) => focusCell(table.current?.closest('table') ?? null, 0, column);
  const refuse = (found: RowProblems) => {
    setProblems(found);
    const first = COLUMNS.find((column) => found[column.id] !== undefined);
    if (first) focus(first.id);
  };
  const change = (column: ColumnId, text: string) => {
    setTexts({ ...texts, [column]: text });
    setProblems(({ [column]: _mended, ...others }) => others);
  };
  const add = async () => {
    const read = readRow(withCount(texts, kind), { id: freshId(), kind, unit });
    if (!read.ok) return refuse(read.problems);
    // At once, so that what is typed next is not held up by the disk.
    setProblems({});
    setTexts(nextRow(texts, kind));
    focus(kind === 'bend' ? 'angle' : 'length');
    const words = await onAdd([read.item], read.said);
    if (words === null) return;
    setTexts(texts);
    refuse({ note: words });
  };
  const paste = async (text: string) => {
    const pasted = pastedRows(text, { kind, unit, newId: freshId });
    const words = pasted.ok ? await onAdd(pasted.items, '') : pasted.words;
    if (words !== null) refuse({ material: words });
  };
  return { texts, problems, change, add, paste };
}

export function NewItemRow(props: Props) {
  const { kind } = props;
  const row = useRef<HTMLTableRowElement>(null);
  const { texts, problems, change, add, paste } = useNewItem(props, row);
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') void add();
    else if (event.key === 'ArrowDown') moveDown(event.currentTarget, 1);
    else return;
    event.preventDefault();
  };
  const onPaste = (event: ClipboardEvent) => {
    const pasted = event.clipboardData.getData('text/plain');
    if (!/[\t\n\r]/.test(pasted.trim())) return;
    event.preventDefault();
    void paste(pasted);
  };
  return (
    <tr ref={row} className="shelf-new" aria-rowindex={2} onPaste={onPaste}>
      <td>
        <select
          className="field-choice"
          aria-label="Kind of the new row"
          value={kind}
          onChange={(event) => props.onKind(event.target.value === 'bend' ? 'bend' : 'straight')}
        >
          <option value="bend">bend</option>
          <option value="straight">straight</option>
        </select>
      </td>
      {COLUMNS.map((column) => (
        <td key={column.id}>
          {hasColumn(kind, column) ? (
            <TextField
              label={`${column.name} of a new ${kind}`}
              labelHidden
              value={texts[column.id] ?? ''}
              onChange={(text) => change(column.id, text)}
              problem={problems[column.id] ?? null}
              placeholder={column.example}
              cell={`0:${column.id}`}
              holdsWords={column.id === 'material' || column.id === 'note'}
              onKeyDown={onKeyDown}
            />
          ) : null}
        </td>
      ))}
      <td>
        <Button onPress={() => void add()}>Add</Button>
      </td>
    </tr>
  );
}
