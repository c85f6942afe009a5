/** Names that fit: never cut within a character, never refused by the schema. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { labelName, nameFromText, nameWithEnding, noteBelow, shortened, startOf } from '../../../core/header/names.ts';
import { NAME_LIMIT, nameSchema, textSchema } from '../../../core/header/schema.ts';
import { hostileNameArbitrary, hostileTextArbitrary } from '../../generators/hostile-names.ts';

const CHARACTERS = new Intl.Segmenter('en', { granularity: 'grapheme' });
const charactersOf = (text: string) => Array.from(CHARACTERS.segment(text), ({ segment }) => segment);

const FAMILY = '\u{1f468}\u200d\u{1f469}\u200d\u{1f467}\u200d\u{1f466}';
const FLAG = '\u{1f1f3}\u{1f1f4}';
const ACCENTED = 'e\u0323\u0302\u0301';

describe('shortening', () => {
  test.each([
    ['a family', FAMILY],
    ['a flag', FLAG],
    ['a wrench', '\u{1f527}'],
    ['a letter with three accents', ACCENTED.normalize('NFC')],
    ['a thumb with its skin colour', '\u{1f44d}\u{1f3fd}'],
    ['a digit in its key', '1\ufe0f\u20e3'],
  ])('%s at the cut is kept whole or left out whole', (_name, character) => {
    for (let before = 0; before <= character.length + 2; before += 1) {
      const text = `${'x'.repeat(before)}${character.repeat(40)}`;
      const short = shortened(text, 60);
      expect(short.length).toBeLessThanOrEqual(60);
      expect(short).toMatch(/^x*.*\u2026$/u);
      const kept = charactersOf(short.slice(0, -1));
      expect(new Set(kept.filter((one) => one !== 'x'))).toEqual(new Set([character]));
    }
  });

  test('without an ellipsis, the longest start of whole characters that fits', () => {
    const limits = fc.integer({ min: 0, max: 130 });
    fc.assert(
      fc.property(hostileNameArbitrary, limits, (name, limit) => {
        const all = charactersOf(name);
        const starts = all.map((_, count) => all.slice(0, count).join(''));
        const longest = name.length <= limit ? name : starts.findLast((start) => start.length <= limit);
        expect(startOf(name, limit)).toBe(longest);
      }),
      { numRuns: 1000 },
    );
  });

  test('leaves what fits as it is, and of anything else the longest start that fits', () => {
    const limits = fc.integer({ min: 1, max: 130 });
    fc.assert(
      fc.property(hostileNameArbitrary, limits, (name, limit) => {
        const short = shortened(name, limit);
        expect(short.length).toBeLessThanOrEqual(limit);
        if (name.length <= limit) {
          expect(short).toBe(name);
          return;
        }
        const all = charactersOf(name);
        const starts = all.map((_, count) => all.slice(0, count).join(''));
        const longest = starts.findLast((start) => start.length < limit);
        expect(short).toBe(`${longest?.trimEnd()}\u2026`);
      }),
      { numRuns: 3000 },
    );
  });

  test('one character that is larger than the room leaves the mark alone', () => {
    expect(shortened(`Z${'\u0335'.repeat(119)}`, 60)).toBe('\u2026');
  });

  test('a text of millions of letters is cut like any other', () => {
    expect(shortened('x'.repeat(1_000_000), 120)).toBe(`${'x'.repeat(119)}\u2026`);
  });
});

test('a sentence above a note leaves as much of the note as the schema takes', () => {
  fc.assert(
    fc.property(hostileNameArbitrary, fc.integer({ min: 0, max: 400 }), (name, times) => {
      const made = noteBelow('Copied.', name.repeat(times));
      expect(textSchema.safeParse(made)).toEqual({ success: true, data: made });
      expect(made.startsWith('Copied.')).toBe(true);
    }),
    { numRuns: 300 },
  );
  expect(noteBelow('Copied.', '')).toBe('Copied.');
  expect(noteBelow('Copied.', 'two')).toBe('Copied.\ntwo');
});

describe('names that the program makes', () => {
  test('of a name that the schema takes are names that it takes, unchanged', () => {
    fc.assert(
      fc.property(hostileNameArbitrary, fc.constantFrom(' (copy)', ' (mine)', ' mirrored'), (name, ending) => {
        const made = nameWithEnding(name, ending);
        expect(nameSchema.safeParse(made)).toEqual({ success: true, data: made });
        expect(made.endsWith(ending)).toBe(true);
        if (name.length + ending.length <= NAME_LIMIT) expect(made).toBe(`${name}${ending}`);
        expect(nameSchema.safeParse(labelName(name)).success).toBe(true);
      }),
      { numRuns: 3000 },
    );
  });

  test('of any text at all are names that the schema takes', () => {
    fc.assert(
      fc.property(hostileTextArbitrary, (text) => {
        const made = nameFromText(text, 'Imported parts');
        expect(nameSchema.safeParse(made)).toEqual({ success: true, data: made });
      }),
      { numRuns: 3000 },
    );
    expect(nameFromText('\u200b \n\t\u2068', 'Imported parts')).toBe('Imported parts');
    expect(nameFromText(' left\tbank\u202e ', 'x')).toBe('left bank');
    expect(nameFromText(`${'x'.repeat(119)}\u{1f527}`, 'x')).toBe(`${'x'.repeat(119)}\u2026`);
  });
});
