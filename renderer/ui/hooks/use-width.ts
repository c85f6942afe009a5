/** The width of an element, kept up to date. */

import { useCallback, useState } from 'react';

/** A ref to put on the element, and its content width in whole CSS pixels; 0 until it is first laid out. */
export function useWidth(): readonly [(element: Element | null) => (() => void) | undefined, number] {
  const [widthPx, setWidthPx] = useState(0);
  const ref = useCallback((element: Element | null) => {
    if (element === null) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setWidthPx(Math.floor(entry.contentRect.width));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, widthPx];
}
