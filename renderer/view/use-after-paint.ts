/** A value that follows another one, but never holds up the frame that shows an edit. */

import { useEffect, useState } from 'react';

/** The value as it was last painted: it changes in a task of its own after the frame in which the given one changed. */
export function useAfterPaint<Value>(value: Value): Value {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    if (Object.is(settled, value)) return undefined;
    let timer = 0;
    const frame = requestAnimationFrame(() => {
      timer = window.setTimeout(() => setSettled(() => value), 0);
    });
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(timer);
    };
  }, [value, settled]);
  return settled;
}
