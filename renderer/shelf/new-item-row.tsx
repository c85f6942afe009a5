/** The first row of the shelf: type an item, press Enter, go on with the next. */

import { useRef, useState } from 'react';
import type { LengthUnit, StockItem } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { freshId } from '../ui/random-id.ts';
import { COLUMNS, type ColumnId, nextRow, type RowProblems, type RowTexts, readRow } from './shelf-columns.ts';
import { focusCell, moveDown } from './shelf-keys.ts';

interface Props {
  readonly kind: StockItem['kind'];
  readonly unit: LengthUnit;
  /** Null once it is on disk; else why not. */
  readonly onAdd: (item: StockItem) => Promise<string | null>;
}

export function NewItemRow({ kind, unit, onAdd }: Props) {
  const [texts, setTexts] = useState<RowTexts>({});
  const [problems, setProblems] = useState<RowProblems>({});
  const row = useRef<HTMLTableRowElement>(null);
  const table = () => row.current?.closest('table') ?? null;
  const refuse = (found: RowProblems) => {
    setProblems(found);
    const first = COLUMNS[kind].find((column) => found[column.id] !== undefined);
    if (first) focusCell(table(), 0, first.id);
  };
  const change = (column: ColumnId, text: string) => {
    setTexts({ ...texts, [column]: text });
    setProblems(({ [column]: _mended, ...others }) => others);
  };
  const add = async () => {
    const read = readRow(texts, { id: freshId(), kind, unit });
    if (!read.ok) return refuse(read.problems);
    const words = await onAdd(read.item);
    if (words !== null) return refuse({ note: words });
    setProblems({});
    setTexts(nextRow(texts, kind));
    focusCell(table(), 0, kind === 'bend' ? 'angle' : 'length');
  };
  return (
    <tr ref={row} className="shelf-new">
      {COLUMNS[kind].map((column) => (
        <td key={column.id} data-label={column.name}>
          <TextField
            label={`${column.name} of a new ${kind}`}
            labelHidden
            value={texts[column.id] ?? ''}
            onChange={(text) => change(column.id, text)}
            problem={problems[column.id] ?? null}
            placeholder={column.example}
            cell={`0:${column.id}`}
            onKeyDown={(event) => {
              if (event.key === 'Enter') void add();
              else if (event.key === 'ArrowDown') moveDown(event.currentTarget, 1);
              else return;
              event.preventDefault();
            }}
          />
        </td>
      ))}
      <td>
        <Button onPress={() => void add()}>Add</Button>
      </td>
    </tr>
  );
}
