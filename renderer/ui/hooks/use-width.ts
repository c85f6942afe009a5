/** The width of an element, kept up to date. */

import { useCallback, useState } from 'react';

type Measured = (element: Element | null) => (() => void) | undefined;

const NOT_YET = { widthPx: 0, letterPx: 16 };

/** A ref to put on the element, and its content width in whole CSS pixels; 0 until it is first laid out. */
export function useWidth(): readonly [Measured, number] {
  const [ref, { widthPx }] = useRoom();
  return [ref, widthPx];
}

/** The same with the size of its letters, in CSS pixels: what room words take in it. */
export function useRoom(): readonly [Measured, { readonly widthPx: number; readonly letterPx: number }] {
  const [room, setRoom] = useState(NOT_YET);
  const ref = useCallback((element: Element | null) => {
    if (element === null) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const widthPx = Math.floor(entry.contentRect.width);
      const letterPx = Number.parseFloat(getComputedStyle(element).fontSize);
      setRoom((last) => (last.widthPx === widthPx && last.letterPx === letterPx ? last : { widthPx, letterPx }));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, room];
}
