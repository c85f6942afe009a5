/** A function that stays the same object while what it does may change. */

import { useCallback, useLayoutEffect, useRef } from 'react';

/** For handlers of components that are costly to draw: they need not be drawn again because a handler is new. */
export function useStable<Arguments extends readonly unknown[]>(
  act: (...given: Arguments) => void,
): (...given: Arguments) => void {
  const latest = useRef(act);
  useLayoutEffect(() => {
    latest.current = act;
  });
  return useCallback((...given: Arguments) => latest.current(...given), []);
}
