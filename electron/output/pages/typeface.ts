/** How wide words are, and which font draws which of their letters. */

import { create, type Font } from 'fontkit';
import type { FontFile, FontFiles } from './font-files.ts';
import { printedText } from './printed-text.ts';

/** A stretch of a text that one font draws. */
export interface FontRun {
  readonly text: string;
  /** Name of its file. */
  readonly font: string;
}

export interface Typeface {
  readonly files: FontFiles;
  /** The text as it is printed: the sign stands for each letter that no font has, and those letters are named. */
  printed(text: string, isBold: boolean): { readonly text: string; readonly missing: readonly string[] };
  /** Runs in the order of the printed text. */
  runs(text: string, isBold: boolean): readonly FontRun[];
  /** The sum of its letters: nothing is kerned or joined, so that a text is as wide as its parts together. */
  widthMm(text: string, look: { readonly sizeMm: number; readonly isBold: boolean }): number;
}

/** The replacement character: a question mark on a black diamond, which nobody types. */
export const MISSING_SIGN = '\ufffd';

/** A letter and the accents over and under it, which one font must draw together. */
const LETTERS = /\P{M}\p{M}*|\p{M}+/gu;

const WORD_LETTER = /\p{L}/u;

interface Letter {
  readonly font: string;
  /** Of letters a unit high. */
  readonly width: number;
  readonly isMissing: boolean;
}

type LetterBook = (letter: string) => Letter;

export function openTypeface(files: FontFiles): Typeface {
  const plain = letterBook(files.plain);
  const bold = letterBook(files.bold);
  const bookOf = (isBold: boolean) => (isBold ? bold : plain);
  return {
    files,
    printed: (text, isBold) => withSigns(lettersOf(text), bookOf(isBold)),
    runs: (text, isBold) => fontRuns(lettersOf(text), bookOf(isBold)),
    widthMm(text, { sizeMm, isBold }) {
      const letterOf = bookOf(isBold);
      let width = 0;
      for (const letter of lettersOf(text)) width += letterOf(letter).width;
      return width * sizeMm;
    },
  };
}

function lettersOf(text: string): readonly string[] {
  return printedText(text).match(LETTERS) ?? [];
}

/** Looks letters up in the first font that has them. Fonts are opened when they are first asked: most texts need one. */
function letterBook(files: readonly FontFile[]): LetterBook {
  const fonts = files.map(({ name, bytes, signsOnly }) => {
    let font: Font | null = null;
    const opened = () => {
      font ??= open(bytes);
      return font;
    };
    const holds = (letter: string, points: readonly number[]) =>
      !(signsOnly && WORD_LETTER.test(letter)) && points.every((point) => opened().hasGlyphForCodePoint(point));
    return { name, opened, holds };
  });
  const known = new Map<string, Letter>();
  const letterOf: LetterBook = (letter) => {
    const before = known.get(letter);
    if (before !== undefined) return before;
    const points = [...letter].map((character) => character.codePointAt(0) ?? 0);
    const found = fonts.find(({ holds }) => holds(letter, points));
    if (found === undefined && letter === MISSING_SIGN) throw new Error('no font has the sign for a missing letter');
    const is =
      found === undefined
        ? { ...letterOf(MISSING_SIGN), isMissing: true }
        : { font: found.name, width: widthOf(found.opened(), points), isMissing: false };
    known.set(letter, is);
    return is;
  };
  return letterOf;
}

function open(bytes: Uint8Array): Font {
  const font = create(Buffer.from(bytes));
  if (!('layout' in font)) throw new Error('a file of the typeface holds several fonts');
  return font;
}

function widthOf(font: Font, points: readonly number[]): number {
  const units = points.reduce((sum, point) => sum + font.glyphForCodePoint(point).advanceWidth, 0);
  return units / font.unitsPerEm;
}

function withSigns(letters: readonly string[], letterOf: LetterBook): ReturnType<Typeface['printed']> {
  const missing = letters.filter((letter) => letterOf(letter).isMissing);
  const text = letters.map((letter) => (letterOf(letter).isMissing ? MISSING_SIGN : letter)).join('');
  return { text, missing };
}

function fontRuns(letters: readonly string[], letterOf: LetterBook): readonly FontRun[] {
  const runs: { text: string; font: string }[] = [];
  for (const letter of letters) {
    const { font, isMissing } = letterOf(letter);
    const drawn = isMissing ? MISSING_SIGN : letter;
    const last = runs.at(-1);
    if (last?.font === font) last.text += drawn;
    else runs.push({ text: drawn, font });
  }
  return runs;
}
