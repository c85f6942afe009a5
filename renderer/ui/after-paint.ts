/** Acts that must not hold up the frame that is about to be painted. */

/** Does it once that frame is painted, or after so many milliseconds; at once on a page that is not seen, which draws no frames. */
export function afterPaint(act: () => void, latestMs: number): void {
  if (document.visibilityState !== 'visible') {
    act();
    return;
  }
  let isDone = false;
  const once = () => {
    if (!isDone) act();
    isDone = true;
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, latestMs);
}
