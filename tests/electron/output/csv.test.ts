/** CSV: what is written is read back as it was, and nothing in it is live in a spreadsheet. */

import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { csvText } from '../../../core/index.ts';
import { readCsv } from '../../../electron/output/csv.ts';

const { EVENRUN_LONG } = process.env;

const bytes = (text: string) => new TextEncoder().encode(text);
function rowsOf(text: string): readonly (readonly string[])[] {
  const read = readCsv(bytes(text));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}
const reasonOf = (input: Uint8Array) => {
  const read = readCsv(input);
  return read.ok ? null : read.problems[0];
};

describe('what a spreadsheet could run', () => {
  test.each([
    '=1+1',
    '=1+1\nnote',
    '+A1',
    '-A1',
    '@SUM(A1)',
    '\tx',
    '\r\nx',
    '  =1',
    '＝1',
    '＋1',
    '－1',
    '＠x',
    "'=1",
    '-1/8 in',
  ])('%j is text, and comes back as it was', (cell) => {
    const text = csvText([[cell, 'end']]);
    expect(text).toMatch(/^\ufeff"'/);
    expect(rowsOf(text)[0]).toEqual([cell, 'end']);
  });

  test.each(['-5.00', '+3', '0', '12.5', '-.5'])('the number %s stays a number', (cell) => {
    expect(csvText([[cell]])).toBe(`\ufeff${cell}\r\n`);
  });

  test('no written cell begins, for a spreadsheet, with a sign of a formula', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: fc.constantFrom(...'=+-@\t\r\n\'", ;ab1＝') }), { minLength: 2 }),
        (row) => {
          // Another program's parser sees the cells as a spreadsheet would.
          const seen = Papa.parse<string[]>(csvText([row]).slice(1), { delimiter: ',' }).data[0] ?? [];
          for (const cell of seen)
            if (!/^[+-]?[\d.]+$/.test(cell)) expect(cell).not.toMatch(/^(?:[\t\r\n]|\s*[=+\-@＝＋－＠])/);
        },
      ),
      { numRuns: 5000, seed: 1 },
    );
  });
});

test('any rows of two cells or more are read back as they were written', () => {
  const cell = fc.oneof(fc.string({ unit: 'grapheme' }), fc.string({ unit: fc.constantFrom(...'=+-@\t\r\n\'", ;a1') }));
  // The comma must be the likeliest delimiter: a heading row of plain names makes it so, as in every file of ours.
  const heading = ['first', 'second', 'third'];
  fc.assert(
    fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 8 }), (rows) => {
      const read = rowsOf(csvText([heading, ...rows]));
      expect(read.slice(0, rows.length + 1)).toEqual([heading, ...rows]);
    }),
    { numRuns: 3000, seed: 2 },
  );
});

describe('what is read', () => {
  test('commas, semicolons and tabs, with either line end, with or without a mark', () => {
    const wanted = [
      ['a', 'b'],
      ['1', '2 1/4'],
    ];
    for (const text of ['a,b\n1,2 1/4', 'a;b\r\n1;2 1/4', '\ufeffa\tb\n1\t2 1/4']) expect(rowsOf(text)).toEqual(wanted);
  });

  test('empty rows keep their place, so that line numbers are those of the spreadsheet', () => {
    expect(rowsOf('a,b\n\n1,2')).toEqual([['a', 'b'], [''], ['1', '2']]);
  });

  test('a quotation mark that never ends is told with its row', () => {
    expect(reasonOf(bytes('a,b\n"1,2'))).toMatchObject({ reason: 'notCsv', path: ['rows', 2] });
  });

  test('limits: 5 MiB, 25,000 rows, 64 columns', () => {
    expect(reasonOf(new Uint8Array(5 * 1024 * 1024 + 1))).toMatchObject({ reason: 'tooLarge' });
    expect(rowsOf(`a,b\n${'1,2\n'.repeat(24_999)}1,2`)).toHaveLength(25_001);
    expect(rowsOf(`a,b\n${'1,2\n'.repeat(25_000)}`)).toHaveLength(25_001);
    expect(rowsOf(csvText([['a', 'b'], ...Array<string[]>(25_000).fill(['1', '2'])]))).toHaveLength(25_001);
    expect(reasonOf(bytes(`a,b\n${'1,2\n'.repeat(25_000)}1,2`))).toEqual({
      kind: 'tooMany',
      path: ['rows'],
      limit: 25_000,
    });
    expect(rowsOf(Array(64).fill('x').join(','))).toHaveLength(1);
    expect(reasonOf(bytes(`a,b\n${Array(65).fill('x').join(',')}`))).toMatchObject({ kind: 'tooMany', limit: 64 });
  });

  test('other encodings are refused', () => {
    for (const wrong of [
      [0xff, 0xfe, 0x61, 0],
      [0x61, 0xe9, 0x62],
      [0xc0, 0x80],
      [0xed, 0xa0, 0x80],
    ]) {
      expect(reasonOf(new Uint8Array(wrong))).toMatchObject({ kind: 'unreadableFile', reason: 'notUtf8' });
    }
  });

  test('R17: mutated files are read or refused, at once', () => {
    const sample = bytes('primary,kind,length,clr,angle\r\n1,straight,"2 1/4",,\r\n1,bend,,3,"90"\r\n');
    const mutation = fc.array(fc.tuple(fc.nat(sample.length - 1), fc.nat(255)), { maxLength: 6 });
    fc.assert(
      fc.property(mutation, (changes) => {
        const mutated = Uint8Array.from(sample);
        for (const [at, value] of changes) mutated[at] = value;
        const read = readCsv(mutated);
        if (!read.ok) expect(read.problems[0]).toHaveProperty('path');
      }),
      { numRuns: EVENRUN_LONG === '1' ? 100_000 : 5000, seed: 3 },
    );
  });
});
