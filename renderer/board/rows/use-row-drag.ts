/** Dragging a row by its name to another place among the primaries. */

import * as d3 from 'd3';
import { type RefCallback, useCallback, useEffect, useRef, useState } from 'react';

type Move = (primaryId: string, by: number) => void;

/** A drag begins after so many pixels: less is a click. */
const CLICK_PX = 4;

/**
 * A ref for the element that holds the rows, and the place before which the dragged row would come to stand; null while none
 * is dragged. `move` null: rows cannot be dragged.
 */
export function useRowDrag(move: Move | null): readonly [RefCallback<HTMLElement>, number | null] {
  const [dropRow, setDropRow] = useState<number | null>(null);
  const latest = useRef(move);
  useEffect(() => {
    latest.current = move;
  });
  const ref = useCallback((board: HTMLElement | null) => {
    if (board === null) return undefined;
    const drag = dragOf(board, setDropRow, (primaryId, by) => latest.current?.(primaryId, by));
    drag.filter(
      (event: MouseEvent) =>
        latest.current !== null &&
        event.button === 0 &&
        !event.ctrlKey &&
        (event.target as Element).closest('.board-name') !== null,
    );
    const selection = d3.select(board).call(drag);
    return () => void selection.on('.drag', null);
  }, []);
  return [ref, dropRow];
}

interface Dragged {
  readonly primaryId: string;
  readonly from: number;
}

function dragOf(board: HTMLElement, show: (row: number | null) => void, move: Move) {
  const rows = () => [...board.querySelectorAll<HTMLElement>('[data-primary]')];
  let dragged: Dragged | null = null;
  let to: number | null = null;
  return d3
    .drag<HTMLElement, unknown>()
    .clickDistance(CLICK_PX)
    .on('start', ({ sourceEvent }) => {
      const row = (sourceEvent.target as Element).closest<HTMLElement>('[data-primary]');
      const from = row === null ? -1 : rows().indexOf(row);
      dragged = from === -1 ? null : { primaryId: row?.getAttribute('data-primary') ?? '', from };
      to = null;
    })
    .on('drag', ({ sourceEvent }) => {
      if (dragged === null) return;
      const yPx = 'touches' in sourceEvent ? sourceEvent.touches[0]?.clientY : sourceEvent.clientY;
      const next = rowBefore(rows(), yPx);
      if (next === to) return;
      to = next;
      // Beside itself it stays where it is.
      show(next === dragged.from || next === dragged.from + 1 ? null : next);
    })
    .on('end', () => {
      show(null);
      if (dragged === null || to === null) return;
      const by = (to > dragged.from ? to - 1 : to) - dragged.from;
      if (by !== 0) move(dragged.primaryId, by);
    });
}

/** How many rows have their middle above a height in the window. */
function rowBefore(rows: readonly HTMLElement[], yPx: number): number {
  return rows.filter((row) => {
    const { top, height } = row.getBoundingClientRect();
    return top + height / 2 < yPx;
  }).length;
}
