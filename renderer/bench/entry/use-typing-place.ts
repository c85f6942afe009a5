/** Where the keypad types: the cell or the field that had the focus last, else the entry line. */

import { type FocusEvent, type RefObject, useRef } from 'react';
import { cellOf } from '../grid/grid-cell.ts';
import { pressPadKey } from './pad-press.ts';

export function useTypingPlace(
  entryRef: RefObject<HTMLInputElement | null>,
  gridRef: RefObject<HTMLTableElement | null>,
) {
  const last = useRef<HTMLElement | null>(null);
  return {
    onFocus: ({ target }: FocusEvent) => {
      if (!(target instanceof HTMLElement)) return;
      if (target === entryRef.current || cellOf(target) !== null) last.current = target;
    },
    press(key: Parameters<typeof pressPadKey>[1]): void {
      const isThere = last.current === entryRef.current || gridRef.current?.contains(last.current) === true;
      const place = isThere ? last.current : entryRef.current;
      if (place !== null) pressPadKey(place, key);
    },
  };
}
