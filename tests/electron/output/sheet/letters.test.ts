/** Names and notes in the letters that shops write: printed and read back, or a plain sign in their place. */

import { expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Header } from '../../../../core/header/header.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { MISSING_SIGN, openTypeface } from '../../../../electron/output/pages/typeface.ts';
import { seededRandom } from '../../../trust/seeded-random.ts';
import { drawnOf, expectNoFaults, FONTS, wordsOn } from './drawn-pages.ts';
import { readPdfPages } from './read-back.ts';

const NAMES = [
  'Впускной коллектор № 2',
  'Ελλάδα, πολλαπλή εξαγωγής',
  'Żółw, příruba, gyűjtőcső, șurub, İstanbul, ẞ',
  'Ống xả số 1',
  'ἀρχὴ ὁδοῦ',
  'Їжак, љубав, қазақ',
  '⌀ 1.75 ≤ 2 ≥ 1 ≈ → ✓ € ± −',
];

const named = (name: string): Header => {
  const demo = demoHeader('demo');
  const primaries = demo.primaries.map((primary, at) => (at === 0 ? { ...primary, name, note: name } : primary));
  return { ...demo, name, note: name, primaries };
};
const sheetOf = (header: Header) => ({ kind: 'sheet' as const, header, plans: [] });

async function wordsInPdf(header: Header): Promise<string> {
  const file = await drawnFile({ drawing: sheetOf(header), paper: 'a4', format: 'pdf' }, FONTS);
  if (!file.ok) throw new Error('was refused');
  const pages = await readPdfPages(file.value.content as Uint8Array);
  return pages.map(({ words }) => words).join(' ');
}

/** Without spaces: an extractor puts one between two fonts. */
const close = (text: string) => text.replaceAll(/\s/g, '');

test.each(NAMES)('%s is printed, bold and plain, and a text extractor reads it back in order', async (name) => {
  const { pages, missing } = drawnOf(sheetOf(named(name)), 'letter');
  expect(missing).toEqual([]);
  expectNoFaults(pages);
  const words = close(await wordsInPdf(named(name)));
  expect(words).not.toContain(MISSING_SIGN);
  // In the running head of every page, with the primary, and as the note.
  expect(words.split(close(name)).length).toBeGreaterThan(4);
});

test('a letter that is written as a letter and its accent is the letter with the accent', async () => {
  const words = close(await wordsInPdf(named('Впускной'.normalize('NFD'))));
  expect(words).toContain('Впускной');
});

test('a fraction written as one letter is written out, apart from the whole before it', async () => {
  const words = await wordsInPdf(named('Leg 2⅜ and ⅞'));
  expect(words.replaceAll('\u00a0', ' ')).toContain('Leg 2 3/8 and 7/8');
});

test('letters that cannot be printed: a sign for each, all of them named once, and nothing else is lost', async () => {
  const name = '排气管 A1 أنبوب 🔥排';
  const { pages, missing } = drawnOf(sheetOf(named(name)), 'a4');
  expectNoFaults(pages);
  expect(missing).toEqual([...'排气管أنبو🔥']);
  const printed = name.replaceAll(/[^ A1]/gu, MISSING_SIGN);
  for (const page of pages) expect(wordsOn(page)).toContain(printed);
  expect(close(await wordsInPdf(named(name)))).toContain(close(printed));
});

test('marks that only tell a screen how to show letters leave no sign', () => {
  const { pages, missing } = drawnOf(sheetOf(named('Head\u200ber\u00ad A\ufe0f\u200d\u3000B\ufeff')), 'a4');
  expect(missing).toEqual([]);
  expect(wordsOn(pages[0] ?? { widthMm: 0, heightMm: 0, marks: [] })).toContain('Header A B');
});

test('any letter at all is printed or has its sign: a text is as wide as its parts, whatever is in it', () => {
  const typeface = openTypeface(FONTS);
  const random = seededRandom(715);
  const look = { sizeMm: 3.1, isBold: false };
  const blocks = [0x20, 0xa0, 0x100, 0x300, 0x370, 0x400, 0x500, 0x600, 0x900, 0x1e00, 0x2000, 0x2100, 0x4e00, 0x1f300];
  for (let run = 0; run < 3000; run += 1) {
    const from = blocks[Math.floor(random() * blocks.length)] ?? 0;
    const point = from + Math.floor(random() * 256);
    const letter = String.fromCodePoint(point);
    const { text, missing } = typeface.printed(`A${letter}B`, run % 2 === 0);
    const runs = typeface.runs(text, run % 2 === 0);
    expect(runs.map((part) => part.text).join('')).toBe(text);
    expect(missing.length).toBe(text.includes(MISSING_SIGN) && point !== 0xfffd ? 1 : 0);
    const apart = [...text.normalize('NFC')].length === 3 ? typeface.widthMm(`${letter}`, look) : null;
    if (apart !== null && !/\p{M}/u.test(letter))
      expect(typeface.widthMm(`A${letter}B`, look)).toBeCloseTo(typeface.widthMm('AB', look) + apart, 9);
  }
});
