/** How numbers are typed in the language of the page. */

import { readDecimalCommas } from '../../../core/index.ts';

/** Whether the language writes two and a half as 2,5; its own settings decide, never the text. */
export function writesDecimalComma(language: string = navigator.language): boolean {
  const parts = numberFormatOf(language).formatToParts(2.5);
  return parts.some(({ type, value }) => type === 'decimal' && value === ',');
}

/** A system may name its language in a way that is no language tag, such as `en-US@posix`: what is before the sign counts. */
function numberFormatOf(language: string): Intl.NumberFormat {
  const [tag = ''] = language.replaceAll('_', '-').split(/[@.]/);
  try {
    return new Intl.NumberFormat(tag);
  } catch {
    return new Intl.NumberFormat('en');
  }
}

/** Typed text with its decimal commas as points where the language writes them so; else as it is. */
export function withDecimalPoints(text: string): string {
  return writesDecimalComma() ? readDecimalCommas(text).text : text;
}
