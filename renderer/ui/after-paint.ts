/** Acts that must not hold up the frame that is about to be painted. */

/** However busy the page is, it is done within so long. */
const LATEST_MS = 500;

/**
 * Does it once that frame is painted, or after `latestMs`; at once on a page that is not seen, which draws no frames.
 * Returns the way to call it off.
 */
export function afterPaint(act: () => void, latestMs: number = LATEST_MS): () => void {
  let isOver = false;
  const once = () => {
    if (!isOver) act();
    isOver = true;
  };
  if (document.visibilityState === 'visible') {
    requestAnimationFrame(() => setTimeout(once));
    setTimeout(once, latestMs);
  } else {
    once();
  }
  return () => {
    isOver = true;
  };
}
