/** Text broken into lines that fit. */

import { printedText } from '../printed-text.ts';
import type { Typeface } from '../typeface.ts';

export interface TextLook {
  readonly sizeMm: number;
  readonly isBold: boolean;
}

export interface LineRoom extends TextLook {
  readonly widthMm: number;
}

/** Room from foot to foot, as a multiple of the size. */
export const LINE_RATIO = 1.3;

/** Where a line was ended by whoever wrote it. */
const BREAKS = /[\n\u2028\u2029]/u;
/** What a line can be broken after. */
const SPACES = /(?<= )/u;
const CHARACTERS = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** The text in lines of at most so wide, broken at spaces, and within a word only where that alone is too wide. Never empty. */
export function textLines(typeface: Typeface, text: string, room: LineRoom): readonly string[] {
  return text.split(BREAKS).flatMap((paragraph) => paragraphLines(typeface, printedText(paragraph), room));
}

function paragraphLines(typeface: Typeface, text: string, room: LineRoom): readonly string[] {
  const lines: string[] = [];
  let line = '';
  const fits = (candidate: string) => typeface.widthMm(candidate.trimEnd(), room) <= room.widthMm + 1e-9;
  for (const word of text.split(SPACES)) {
    if (fits(line + word)) {
      line += word;
      continue;
    }
    if (line !== '') lines.push(line.trimEnd());
    const parts = fits(word) ? [word] : brokenWord(word, fits);
    lines.push(...parts.slice(0, -1));
    line = parts.at(-1) ?? '';
  }
  return [...lines, line.trimEnd()];
}

function brokenWord(word: string, fits: (text: string) => boolean): readonly string[] {
  const parts: string[] = [];
  let part = '';
  for (const { segment } of CHARACTERS.segment(word)) {
    if (part !== '' && !fits(part + segment)) {
      parts.push(part);
      part = '';
    }
    part += segment;
  }
  return [...parts, part];
}
