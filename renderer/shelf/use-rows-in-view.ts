/** Which rows of a long table are drawn: those in sight, some beyond them, and the one that is being worked on. */

import { type RefObject, useCallback, useLayoutEffect, useState } from 'react';

/** Rows drawn beyond either edge, so that a quick turn of the wheel, or an arrow key, finds them there. */
const BEYOND = 12;
/** The window moves by so many rows at a time. */
const STRIDE = 6;
const FIRST_HEIGHT = 33;
const FIRST_SIGHT = 40;

export interface RowsInView {
  readonly rowHeight: number;
  /** Places of the rows to draw, ascending. */
  readonly places: readonly number[];
  readonly onScroll: () => void;
}

/**
 * @param count how many rows there are
 * @param kept place of a row that is drawn wherever it is, since it may hold text that is not accepted; -1 for none
 */
export function useRowsInView(scroller: RefObject<HTMLElement | null>, count: number, kept: number): RowsInView {
  const [sight, setSight] = useState({ first: 0, size: FIRST_SIGHT, rowHeight: FIRST_HEIGHT });
  const look = useCallback(() => {
    const element = scroller.current;
    if (element === null) return;
    const row = element.querySelector('tr[data-place]');
    setSight((before) => {
      const rowHeight = row?.getBoundingClientRect().height || before.rowHeight;
      const first = Math.floor(element.scrollTop / rowHeight / STRIDE) * STRIDE;
      const size = Math.ceil(element.clientHeight / rowHeight) + STRIDE;
      const isSame = before.first === first && before.size === size && before.rowHeight === rowHeight;
      return isSame ? before : { first, size, rowHeight };
    });
  }, [scroller]);
  useLayoutEffect(() => {
    look();
    addEventListener('resize', look);
    return () => removeEventListener('resize', look);
  });
  return { rowHeight: sight.rowHeight, places: placesInView(sight, count, kept), onScroll: look };
}

export function placesInView(
  { first, size }: { readonly first: number; readonly size: number },
  count: number,
  kept: number,
): readonly number[] {
  const from = Math.max(0, Math.min(first, count - size) - BEYOND);
  const to = Math.min(count, first + size + BEYOND);
  const places = Array.from({ length: Math.max(0, to - from) }, (_, at) => from + at);
  if (kept < 0 || kept >= count) return places;
  if (kept < from) return [kept, ...places];
  return kept >= to ? [...places, kept] : places;
}
