/** What is odd about a line that can be read: every oddity has its sentence, and usual lines have none. */

import { describe, expect, test } from 'vitest';
import { describeEntryNote } from '../../../../core/header/parts/describe-entry-note.ts';
import { entryNotes } from '../../../../core/header/parts/entry-notes.ts';
import { parseQuickEntry } from '../../../../core/header/parts/quick-entry.ts';
import { inches } from '../../../../core/units/length.ts';
import type { LengthStyle } from '../../../../core/units/length-style.ts';

const style: LengthStyle = { kind: 'fraction', per: 16 };

/** The sentences for a line typed for a tube of 1 3/4 in and CLRs of 3 in. */
function sentences(text: string, decimalComma = false): readonly string[] {
  const read = parseQuickEntry(text, { unit: 'in', clr: inches(3), decimalComma });
  if (!read.ok) throw new Error(`${text} is not read`);
  const notes = entryNotes(text, read.value, { od: inches(1.75), decimalComma });
  return notes.map((note) => describeEntryNote(note, style));
}

describe('odd lines are taken with a word', () => {
  test.each([
    ['40000mm', /longer than 10 ft/],
    ['b360', /360° is more than a U-bend/],
    ['b181', /181° is more than a U-bend/],
    ['b0.5', /0\.5° is less than 1°/],
    ['b60 r17.6', /10\.1 tube diameters/],
    ['b60 r1.7', /tighter than a mandrel bends/],
    ['p90x5 r1', /0\.6 of the tube/],
    ['7 11/61', /^11\/61 is on no tape/],
    ['b60 r3 1/3', /^1\/3 is on no tape/],
    ['2; b360; 7 11/61', /U-bend/],
  ])('%s', (text, sentence) => {
    expect(sentences(text).join(' ')).toMatch(sentence);
  });

  test('an angle and a clocking run together by a slash are told with the line that was meant', () => {
    const said = sentences('b90/180').join(' ');
    expect(said).toBe('90/180 is read as the fraction, 0.5°: for a clocking type b90 180.');
  });

  test('a decimal comma says how it was read', () => {
    expect(sentences('2,5; b22,5', true)).toContain('Comma read as a decimal: 2,5 is 2.5, 22,5 is 22.5.');
  });
});

test.each([
  '2 1/4',
  '120',
  'b180',
  'b1',
  'b90 180 r1.75',
  'b90 r17.5',
  'b22 1/2 45',
  '7 11/64',
  'p90x5',
  '57mm; b45 -90',
])('%s is nothing to speak of', (text) => {
  expect(sentences(text)).toEqual([]);
});

test('each oddity is told once', () => {
  expect(sentences('b360; b270; b200')).toHaveLength(1);
});
