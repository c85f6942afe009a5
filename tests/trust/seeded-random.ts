/** Random numbers that come out the same for the same seed, so that a failed run can be run again. */

/** Numbers from 0 (inclusive) to 1 (exclusive); mulberry32, a 32-bit generator in the public domain. */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A whole number from 0 to `limit` - 1. */
export function randomBelow(random: () => number, limit: number): number {
  return Math.floor(random() * limit);
}
