/** Questions that are asked again and again, for as long as a screen is open. */

/** Left out while the one before has no answer yet: a browser keeps few connections to a host, and questions that a slow host has not come to would hold up steps. */
export function oneAtATime(ask: () => Promise<void>): () => void {
  let isUnderWay = false;
  return () => {
    if (isUnderWay) return;
    isUnderWay = true;
    void ask().finally(() => {
      isUnderWay = false;
    });
  };
}
