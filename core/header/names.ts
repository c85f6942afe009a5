/** Names that fit: cut between whole characters, never in the middle of one, and never into what the schema refuses. */

import { FORBIDDEN_CHARACTERS, NAME_LIMIT, nameSchema, TEXT_LIMIT } from './schema.ts';

/** Stands for what was left out. */
const ELLIPSIS = '\u2026';

/** How much of a name the label of a step shows: with the words around it, it stays within `NAME_LIMIT`. */
const LABEL_NAME_LIMIT = 60;

let characters: Intl.Segmenter | null = null;

/**
 * What a reader takes for one character may be many code units: a flag, a letter with its accents, a family. What tells
 * them apart takes 8 ms to make, which every start would wait for: it is made when the first long text is cut.
 */
function charactersOf(text: string): Intl.Segments {
  characters ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  return characters.segment(text);
}

/**
 * The longest start of `text` that ends between two characters and whose characters come to at most `room`, each counted by
 * `sizeOf`. Empty when the first character alone is larger. Looks no further into the text than it takes.
 */
export function startWithin(text: string, room: number, sizeOf: (character: string) => number): string {
  let end = 0;
  let size = 0;
  for (const { segment } of charactersOf(text)) {
    size += sizeOf(segment);
    if (size > room) break;
    end += segment.length;
  }
  return text.slice(0, end);
}

/** As much of the text as comes to at most `limit` UTF-16 units, never half a character; nothing shows that the rest is missing. */
export function startOf(text: string, limit: number): string {
  return text.length <= limit ? text : startWithin(text, limit, ({ length }) => length);
}

/** `text` in NFC if that has at most `limit` UTF-16 units, as the schema counts; else as much of it as fits, and an ellipsis. */
export function shortened(text: string, limit: number): string {
  const whole = text.normalize('NFC').toWellFormed();
  if (whole.length <= limit) return whole;
  return `${startWithin(whole, limit - ELLIPSIS.length, ({ length }) => length).trimEnd()}${ELLIPSIS}`;
}

/** A name as the label of a step shows it. */
export function labelName(name: string): string {
  return shortened(name, LABEL_NAME_LIMIT);
}

/** A name with words behind it, such as "Hill-climb four (copy)"; a long name is shortened, the words never. */
export function nameWithEnding(name: string, ending: ' (copy)' | ' (mine)' | ' mirrored'): string {
  return `${shortened(name, NAME_LIMIT - ending.length)}${ending}`;
}

/** What the schema refuses becomes a space, and white space one space. */
function plainText(text: string): string {
  return text.normalize('NFC').replaceAll(new RegExp(FORBIDDEN_CHARACTERS, 'gu'), ' ').replaceAll(/\s+/gu, ' ').trim();
}

/** A note with a sentence above it, of which as much is kept as a note may hold. */
export function noteBelow(sentence: string, note: string): string {
  return shortened(note === '' ? sentence : `${sentence}\n${note}`, TEXT_LIMIT);
}

/** A note of one line made of any text; empty when there is nothing to see in it. */
export function noteFromText(text: string): string {
  return shortened(plainText(text), TEXT_LIMIT);
}

/** A name made of any text, such as the name of a file: what a name cannot hold becomes a space. `otherwise` when nothing is left. */
export function nameFromText(text: string, otherwise: string): string {
  const name = shortened(plainText(text), NAME_LIMIT);
  return nameSchema.safeParse(name).success ? name : otherwise;
}
