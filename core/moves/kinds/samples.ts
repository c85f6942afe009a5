/** What searches by samples draw from. */

/** The same numbers every time, from 0 to below 1, so that the same question has the same answer (constants of Numerical Recipes, from memory). */
export function fixedRandom(): () => number {
  let state = 2_654_435_769;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
