/** The rows of the board: one tab stop, gone through by the arrow keys. */

import { type CSSProperties, type KeyboardEvent, type MouseEvent, useId, useMemo } from 'react';
import type { Primary, PrimaryMatch } from '../../../core/index.ts';
import type { BoardPreview, BoardProps } from '../board-props.ts';
import type { BoardScales } from '../scale/use-board-scales.ts';
import { boardKey, pieceIdAt, type ReadPiece } from './board-keys.ts';
import { BoardRow } from './board-row.tsx';
import { useRowDrag } from './use-row-drag.ts';

interface Props extends BoardProps {
  readonly scales: BoardScales;
  /** Places in the header of its primaries, in the order of the rows. */
  readonly rows: readonly number[];
  readonly read: ReadPiece | null;
  readonly onRead: (read: ReadPiece | null) => void;
  /** Opens the menu or the name of the row in hand. */
  readonly onOpen: (what: 'menu' | 'name') => void;
}

export function BoardRows(props: Props) {
  const { header, report, preview, primaryId, rows, scales, acts, order } = props;
  const hatchId = useId();
  const { targetMm, lowMm, highMm } = report;
  const { boardPx } = scales;
  const whole = useMemo(() => ({ widthPx: boardPx, targetMm, lowMm, highMm }), [boardPx, targetMm, lowMm, highMm]);
  const rowInHand = rows.findIndex((place) => header.primaries[place]?.id === primaryId);
  const [dragRef, dropRow] = useRowDrag(acts !== null && order === 'port' ? acts.move : null);
  return (
    <div
      ref={dragRef}
      className="board-rows"
      role="listbox"
      aria-label="Primaries"
      tabIndex={-1}
      data-drop={dropRow ?? undefined}
      style={dropPlace(dropRow, rowInHand)}
      onKeyDown={(event) => keyInRows(event, props)}
      onPointerLeave={() => props.onRead(null)}
      {...(acts === null ? {} : opening(props))}
    >
      <Hatch id={hatchId} />
      {rows.map((place, row) => {
        const [primary, match] = [header.primaries[place], report.primaries[place]];
        if (primary === undefined || match === undefined) return null;
        const isSelected = primary.id === primaryId;
        return (
          <BoardRow
            key={primary.id}
            primary={primary}
            match={match}
            preview={rowPreview(preview, primary, match)}
            deviation={scales.deviation}
            band={scales.band}
            spanMm={scales.spanMm}
            style={header.settings.display}
            hatchId={hatchId}
            whole={isSelected ? whole : null}
            isTabStop={isSelected || (primaryId === null && row === 0)}
            pieceId={isSelected ? props.pieceId : null}
            readIndex={props.read?.primaryId === primary.id ? props.read.index : null}
            onRead={props.onRead}
            onSelect={props.onSelect}
          />
        );
      })}
    </div>
  );
}

/** Where the dragged row would come to stand; below the row in hand lies its strip as well. */
function dropPlace(dropRow: number | null, rowInHand: number): CSSProperties {
  const row = dropRow ?? 0;
  return { '--drop': row, '--strips-before': row > rowInHand ? 1 : 0 } as CSSProperties;
}

/** A double click renames, the other button opens the menu; both take the row in hand first. */
function opening({ onSelect, onOpen }: Props) {
  const take = (event: MouseEvent<HTMLElement>, what: 'menu' | 'name') => {
    const row = (event.target as Element).closest<HTMLElement>('[data-primary]');
    const primaryId = row?.getAttribute('data-primary') ?? null;
    if (primaryId === null) return;
    event.preventDefault();
    onSelect(primaryId, null);
    onOpen(what);
  };
  return {
    onDoubleClick: (event: MouseEvent<HTMLElement>) => take(event, 'name'),
    onContextMenu: (event: MouseEvent<HTMLElement>) => take(event, 'menu'),
  };
}

/** Arrows go from piece to piece and from row to row, and the focus goes with them; with Alt they move the primary. */
function keyInRows(event: KeyboardEvent<HTMLElement>, props: Props): void {
  const { header, rows, primaryId, read, acts, order, onRead, onSelect, onOpen } = props;
  if (event.ctrlKey || event.metaKey) return;
  if (acts !== null && primaryId !== null && !event.altKey && event.key === 'F2') {
    event.preventDefault();
    onOpen('name');
    return;
  }
  if (event.altKey) {
    const by = event.key === 'ArrowUp' ? -1 : event.key === 'ArrowDown' ? 1 : 0;
    if (by === 0 || acts === null || primaryId === null || order !== 'port') return;
    event.preventDefault();
    // With no row taken along, these keys move the piece in hand.
    event.stopPropagation();
    acts.move(primaryId, by);
    // A row that is put elsewhere loses the focus.
    const { currentTarget } = event;
    requestAnimationFrame(() => focusRow(currentTarget, primaryId));
    return;
  }
  const next = boardKey({ key: event.key, header, rows, primaryId, read });
  if (next === null) return;
  event.preventDefault();
  onRead(next.read);
  if (next.primaryId === primaryId && !next.choose) return;
  onSelect(next.primaryId, next.choose ? pieceIdAt(header, next.read) : null);
  focusRow(event.currentTarget, next.primaryId);
}

export function focusRow(board: Element | null, primaryId: string): void {
  board?.querySelector<HTMLElement>(`[data-primary="${CSS.escape(primaryId)}"]`)?.focus();
}

/** Null for a row that comes out as it is. */
function rowPreview(preview: BoardPreview | null, primary: Primary, match: PrimaryMatch): PrimaryMatch | null {
  const after = preview?.report.primaries.find(({ primaryId }) => primaryId === primary.id);
  if (after === undefined) return null;
  const hasMoved = after.deviationMm !== match.deviationMm;
  return hasMoved || !preview?.after.primaries.includes(primary) ? after : null;
}

/** Bends are told from straights by a hatch, never by hue. */
function Hatch({ id }: { readonly id: string }) {
  return (
    <svg className="board-defs" aria-hidden="true" focusable="false">
      <defs>
        <pattern id={id} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="4" className="hatch-line" />
        </pattern>
      </defs>
    </svg>
  );
}
