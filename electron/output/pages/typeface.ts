/** How wide words are, and which part of the typeface draws which of their letters. */

import { create, type Font } from 'fontkit';
import type { FontFiles, FontName } from './font-files.ts';

/** A stretch of a text that one font draws. */
export interface FontRun {
  readonly text: string;
  readonly font: FontName;
}

export interface Typeface {
  readonly files: FontFiles;
  /** Runs in the order of the text; a letter that no font has is drawn as an empty box. */
  runs(text: string, isBold: boolean): readonly FontRun[];
  /** The sum of its letters: nothing is kerned or joined, so that a text is as wide as its parts together. */
  widthMm(text: string, look: { readonly sizeMm: number; readonly isBold: boolean }): number;
}

interface Letter {
  readonly font: FontName;
  /** Of letters a unit high. */
  readonly width: number;
}

export function openTypeface(files: FontFiles): Typeface {
  const plain = letterBook({ plain: open(files.plain), plainMore: open(files.plainMore) });
  const bold = letterBook({ bold: open(files.bold), boldMore: open(files.boldMore) });
  return {
    files,
    runs: (text, isBold) => fontRuns(text, isBold ? bold : plain),
    widthMm(text, { sizeMm, isBold }) {
      const letterOf = isBold ? bold : plain;
      let width = 0;
      for (const character of text) width += letterOf(character).width;
      return width * sizeMm;
    },
  };
}

function open(bytes: Uint8Array): Font {
  const font = create(Buffer.from(bytes));
  if (!('layout' in font)) throw new Error('a file of the typeface holds several fonts');
  return font;
}

/** Looks letters up in the first font that has them; in the first of all where none has. */
function letterBook(fonts: Partial<Readonly<Record<FontName, Font>>>): (character: string) => Letter {
  const list = Object.entries(fonts) as (readonly [FontName, Font])[];
  const known = new Map<string, Letter>();
  return (character) => {
    const before = known.get(character);
    if (before !== undefined) return before;
    const point = character.codePointAt(0) ?? 0;
    const [name, font] = list.find(([, one]) => one.hasGlyphForCodePoint(point)) ?? (list[0] as (typeof list)[number]);
    const letter = { font: name, width: font.glyphForCodePoint(point).advanceWidth / font.unitsPerEm };
    known.set(character, letter);
    return letter;
  };
}

function fontRuns(text: string, letterOf: (character: string) => Letter): readonly FontRun[] {
  const runs: { text: string; font: FontName }[] = [];
  for (const character of text) {
    const { font } = letterOf(character);
    const last = runs.at(-1);
    if (last?.font === font) last.text += character;
    else runs.push({ text: character, font });
  }
  return runs;
}
