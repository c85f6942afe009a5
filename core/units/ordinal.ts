/** Places in a row as they are said. */

const WORDS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/** "1st", "2nd", "3rd", "4th", "11th", "21st", "111th"; for a whole number of zero or more. */
export function ordinal(number: number): string {
  return `${number}${endingOf(number)}`;
}

/** "first" to "tenth" in words, then as `ordinal`. */
export function ordinalWord(number: number): string {
  return WORDS[number - 1] ?? ordinal(number);
}

/** The teens of every hundred go by th, whatever their last figure. */
function endingOf(number: number): string {
  const isTeen = Math.floor(number / 10) % 10 === 1;
  if (isTeen) return 'th';
  return ['th', 'st', 'nd', 'rd'][number % 10] ?? 'th';
}
