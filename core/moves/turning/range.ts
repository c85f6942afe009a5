/** Slip and band as a descent sees them: what is outside of them counts, and by how much. */

/** A figure that may lie anywhere in a range, in units of its tolerance: how far it is above the low and above the high end. */
export interface Range {
  aboveLow: number;
  aboveHigh: number;
}

export function setRange(range: Range, value: number, low: number, high: number): void {
  range.aboveLow = value - low;
  range.aboveHigh = value - high;
}

/** How far the figure is outside its range once it has changed by so much, with its sign; zero within. */
export function outsideAfter({ aboveLow, aboveHigh }: Range, change: number): number {
  if (aboveHigh + change > 0) return aboveHigh + change;
  return Math.min(0, aboveLow + change);
}

/** What counts of the range where a step that changes the figure by so much ends: how far it is now from that end of the range; null within. */
export function countsAfter({ aboveLow, aboveHigh }: Range, change: number): number | null {
  if (aboveHigh + change > 0) return aboveHigh;
  return aboveLow + change < 0 ? aboveLow : null;
}
