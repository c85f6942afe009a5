/** Several problems as one text that a person can read. */

import { describeProblem, type Problem } from '../../../core/index.ts';

/** All problems as one text, a sentence each; the first few only, so that it can be read. */
export function wordsFor(problems: readonly Problem[]): string {
  const shown = problems.slice(0, 3).map(describeProblem);
  const rest = problems.length - shown.length;
  return [...shown, ...(rest > 0 ? [`And ${rest} more.`] : [])].join(' ');
}

/** How decimal commas were read, by the first few numbers that had one: "Commas read as decimals: 57,5 is 57.5." */
export function commasWords(numbers: readonly string[]): string {
  const shown = numbers.slice(0, 3).map((number) => `${number} is ${number.replace(',', '.')}`);
  return `Commas read as decimals: ${shown.join(', ')}.`;
}
