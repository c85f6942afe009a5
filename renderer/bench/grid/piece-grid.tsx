/** The pieces of one primary as a grid that is worked wholly from the keyboard. */

import * as d3 from 'd3';
import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { type Header, type Piece, type StockItem, shelfMatch, tubeOf, unitOf } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { isWithin } from './grid-cell.ts';
import { type GridActs, gridEvents } from './grid-events.ts';
import type { Cell } from './grid-keys.ts';
import { COLUMN_NAMES, COLUMNS } from './piece-columns.ts';
import { PieceRow } from './piece-row.tsx';
import { type CellEdits, useCellEdits } from './use-cell-edits.ts';
import { useGridFocus } from './use-grid-focus.ts';

interface Props extends GridActs {
  readonly header: Header;
  readonly pieceLengthsMm: readonly number[];
  readonly stock: readonly StockItem[] | null;
  readonly marks: ReadonlyMap<string, string>;
  readonly insertAfterId: string | null;
  readonly gridRef: RefObject<HTMLTableElement | null>;
}

const FIRST_CELL: Cell = { row: 0, column: 2 };

export function PieceGrid(props: Props) {
  const { session, header, primary, cell, gridRef } = props;
  const style = header.settings.display;
  const runsMm = useMemo(() => d3.cumsum(props.pieceLengthsMm), [props.pieceLengthsMm]);
  const cellEdits = useCellEdits(session, primary);
  const wantsFocus = useGridFocus(props);
  const cellAtPress = useRef<Cell | null>(null);
  useFieldCommits(session, gridRef, cellEdits);
  const tabCell = cell ?? FIRST_CELL;
  return (
    <table
      ref={gridRef}
      className="piece-grid"
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the grid pattern of the W3C APG allows a table
      role="grid"
      aria-label={`Pieces of ${primaryTitle(primary.name)}`}
      aria-multiselectable="true"
      aria-readonly={props.isFrozen}
      aria-rowcount={primary.pieces.length + 1}
      {...gridEvents({ ...props, cellEdits, wantsFocus, cellAtPress })}
    >
      <GridHead unit={unitOf(style)} />
      <tbody>
        {primary.pieces.map((piece, index) => (
          <PieceRow
            key={piece.id}
            piece={piece}
            index={index}
            runMm={runsMm[index] ?? 0}
            style={style}
            tabColumn={tabCell.row === index ? tabCell.column : null}
            isSelected={isWithin(index, cell, props.anchorRow)}
            isInsertPlace={piece.id === props.insertAfterId}
            moveMark={props.marks.get(piece.id) ?? null}
            isOffShelf={isOffShelf(piece, props)}
            edit={cellEdits.edits.get(piece.id) ?? null}
          />
        ))}
      </tbody>
    </table>
  );
}

/** A shelf with nothing on it has not been taken stock of, and says nothing about a bend. */
function isOffShelf(piece: Piece, { stock, header, primary }: Props): boolean {
  if (piece.kind !== 'bend' || stock === null || stock.length === 0) return false;
  return shelfMatch(stock, piece, tubeOf(header, primary)) !== 'onShelf';
}

/** What stands in a field is taken when the window is about to close, and when the grid goes away. */
function useFieldCommits(
  session: HeaderSession,
  gridRef: RefObject<HTMLTableElement | null>,
  cellEdits: CellEdits,
): void {
  const commitAll = () => {
    const fields = gridRef.current?.querySelectorAll<HTMLInputElement>('input[data-piece]') ?? [];
    for (const field of fields) cellEdits.commit(field.dataset['piece'] ?? '', field.value);
  };
  const latest = useRef(commitAll);
  useEffect(() => {
    latest.current = commitAll;
  });
  useEffect(() => session.addCommitter(() => latest.current()), [session]);
  // Going to another primary takes the field away without a blur.
  useLayoutEffect(() => () => latest.current(), []);
}

/** The unit stands once, in the heading of each column of lengths. */
function GridHead({ unit }: { readonly unit: string }) {
  return (
    <thead>
      <tr aria-rowindex={1}>
        {COLUMNS.map((column) => (
          <th key={column} scope="col" className={`cell-${column}`}>
            {COLUMN_NAMES[column]}
            {column === 'clr' || column === 'run' ? <span className="column-unit"> {unit}</span> : null}
          </th>
        ))}
      </tr>
    </thead>
  );
}
