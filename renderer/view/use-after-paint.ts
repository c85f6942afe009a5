/** A value that follows another one, but never holds up the frame that shows an edit, nor the key that is typed next. */

import { useEffect, useState } from 'react';

/** However busy the page is, the value follows within so long. */
const LATEST_MS = 120;

/** Runs the act once the page has nothing else to do; returns the way to call it off. Some browsers cannot tell, and get a task of its own. */
function whenIdle(act: () => void): () => void {
  if (!('requestIdleCallback' in window)) {
    const timer = setTimeout(act, 0);
    return () => clearTimeout(timer);
  }
  const idle = requestIdleCallback(act, { timeout: LATEST_MS });
  return () => cancelIdleCallback(idle);
}

/**
 * Runs the act after the next frame: once the page has nothing else to do, or with `restMs` above zero after so many milliseconds more.
 * Returns the way to call it off.
 */
export function afterNextFrame(act: () => void, restMs: number): () => void {
  let cancel: (() => void) | null = null;
  const frame = requestAnimationFrame(() => {
    cancel = restMs > 0 ? whenRested(act, restMs) : whenIdle(act);
  });
  return () => {
    cancelAnimationFrame(frame);
    cancel?.();
  };
}

function whenRested(act: () => void, restMs: number): () => void {
  const timer = setTimeout(act, restMs);
  return () => clearTimeout(timer);
}

/**
 * The value as it was last painted: it changes in idle time after the frame in which the given one changed, or `restMs` later.
 * A value that changes again before that takes the place of the one that waits.
 */
export function useAfterPaint<Value>(value: Value, restMs: (settled: Value, value: Value) => number = atOnce): Value {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    if (Object.is(settled, value)) return undefined;
    return afterNextFrame(() => setSettled(() => value), restMs(settled, value));
  }, [value, settled, restMs]);
  return settled;
}

function atOnce(): number {
  return 0;
}
