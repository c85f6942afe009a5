/** Waiting for the frame that shows what has just changed. */

/** A frame that takes longer is not waited for. */
const LATEST_MS = 25;

/** Calls back once the next frame has been drawn; at once in a page that is not seen, which draws none. */
export function afterFrame(act: () => void): void {
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
  setTimeout(once, LATEST_MS);
}
