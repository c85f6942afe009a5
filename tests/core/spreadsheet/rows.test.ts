/** Rows of spreadsheets: what is written is read back, nothing written is live, and nothing read takes long. */

import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { readCsvRows, readNumberRows, readPastedRows } from '../../../core/spreadsheet/read-rows.ts';
import { clipboardText, csvText } from '../../../core/spreadsheet/write-rows.ts';
import { limitHere, onCpu } from '../../cpu-time.ts';

const { EVENRUN_LONG } = process.env;
const RUNS = EVENRUN_LONG === '1' ? 100_000 : 3000;
const most = { mostRows: 1000 };

const HEADING = ['first', 'second', 'third'];
const cell = fc.oneof(
  fc.string({ unit: 'grapheme' }),
  fc.string({ unit: fc.constantFrom(...'=+-@\t\r\n\'", ;a1.e\ufeff\uff1d') }),
  fc.constantFrom('=1+1', '+1', '-1', '-1e-7', '@x', "'", "'-1", '"', '""', '\r', '-1\n', '2 3/4"', ' '),
);
const rowsArbitrary = fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 8 });

/** Rows at the end of which there is nothing are not told from line ends. */
const withoutBlankEnd = (rows: readonly (readonly string[])[]) => [...rows, ['end', '', 'x']];

describe('there and back', () => {
  test('a CSV file gives back the rows that were written, whatever is in them', () => {
    fc.assert(
      fc.property(rowsArbitrary, (some) => {
        const rows = withoutBlankEnd([HEADING, ...some]);
        // The decoder of a file takes the first mark away, the reader of text another.
        expect(readCsvRows(csvText(rows).slice(1), most)).toEqual({ rows, openQuote: null });
        expect(readCsvRows(csvText(rows), most)).toEqual({ rows, openQuote: null });
      }),
      { numRuns: RUNS, seed: 11 },
    );
  });

  test('the clipboard gives back the rows that were put on it, whatever is in them', () => {
    fc.assert(
      fc.property(rowsArbitrary, (some) => {
        const rows = withoutBlankEnd([HEADING, ...some]);
        expect(readPastedRows(clipboardText(rows), most)).toEqual(rows);
      }),
      { numRuns: RUNS, seed: 12 },
    );
  });

  test('no rows are no text', () => {
    expect(clipboardText([])).toBe('');
    expect(readCsvRows(csvText([]), most).rows).toEqual([]);
  });
});

describe('what a spreadsheet could run', () => {
  test('no cell begins with a sign of a formula but a plain number, and plain numbers stay as they are', () => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map(String);
    const texts = [
      { write: (row: readonly string[]) => csvText([row], { hasMark: false }), delimiter: ',' },
      { write: (row: readonly string[]) => clipboardText([row]), delimiter: '\t' },
    ];
    fc.assert(
      fc.property(fc.tuple(cell, cell, number), (row) => {
        for (const { write, delimiter } of texts) {
          const seen = Papa.parse<string[]>(write(row), { delimiter }).data[0] ?? [];
          expect(seen[2]).toBe(row[2]);
          for (const shown of seen) {
            if (/^[+-]?[\d.]+(?:e[+-]?\d+)?$/i.test(shown)) continue;
            expect(shown).not.toMatch(/^(?:[\t\r\n]|\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/);
          }
        }
      }),
      { numRuns: RUNS, seed: 13 },
    );
  });
});

describe('files that other programs wrote', () => {
  test('line ends of three kinds in one file are line ends, also beside quoted cells that hold some', () => {
    const text = 'a,b\r\n"1\r\n2",x\n3,"4"\r"5",6\r\n';
    expect(readCsvRows(text, most).rows).toEqual([
      ['a', 'b'],
      ['1\r\n2', 'x'],
      ['3', '4'],
      ['5', '6'],
    ]);
    expect(readCsvRows('a,b\r\n1,2\n3,4\r5,6', most).rows).toHaveLength(4);
  });

  test('cells are apart by what the headings are apart by, whatever the cells below hold', () => {
    expect(readCsvRows('a;b\n1,5;2,5\n1,5,2;x\n', most).rows[1]).toEqual(['1,5', '2,5']);
    expect(readCsvRows('a\tb\n1,5\t2;5\n', most).rows[1]).toEqual(['1,5', '2;5']);
    expect(readCsvRows('\n ,,\na;b\n1;2', most).rows.at(-1)).toEqual(['1', '2']);
    expect(readCsvRows('one\n1\n', most).rows).toEqual([['one'], ['1']]);
  });

  test('spaces between a closing quote and the end of its cell are passed over', () => {
    expect(readCsvRows('a,b\n"1"  ,"2"  ', most).rows[1]).toEqual(['1', '2']);
  });

  test.each([
    ['a,b\n"1,2', 2],
    ['a,b\n1,2\n3,"4"x\n', 3],
    ['"a\n\n\n",b\n"1"2,', 2],
    ['a,"', 1],
  ])('a quote that does not fit is told with its row: %j', (text, openQuote) => {
    expect(readCsvRows(text, most)).toEqual({ rows: [], openQuote });
    // Lists of numbers need no quotes: there it is only a character.
    expect(readNumberRows(text, most).length).toBeGreaterThan(0);
  });

  test('no more rows are split off than are asked for', () => {
    expect(readCsvRows('a,b\n'.repeat(50), { mostRows: 7 }).rows).toHaveLength(7);
    expect(readCsvRows('a,"b"\n'.repeat(50), { mostRows: 7 }).rows).toHaveLength(7);
    expect(readPastedRows('a\t"b\n'.repeat(50), { mostRows: 7 })).toHaveLength(7);
  });
});

describe('time', () => {
  const N = 10_000;
  /** Texts that keep the same shape as they grow. */
  const shapes: readonly (readonly [name: string, make: (size: number) => string])[] = [
    ['quotes that do not fit, and a far line end', (size) => `"${'"x'.repeat(size)}${' '.repeat(size)},`],
    ['quotes that never close', (size) => '"a,\t'.repeat(size)],
    ['empty quotes', (size) => '""'.repeat(size)],
    ['closed cells', (size) => '"a" ,"b"\t\n'.repeat(size)],
    ['apostrophes', (size) => `${"'".repeat(size)} x`],
    ['blanks before the headings', (size) => `${' ,'.repeat(size)}\n${' \r'.repeat(size)}a,b`],
    ['digits', (size) => `-${'1'.repeat(size)}x`],
  ];

  test.each(shapes)('sixteen times as much text takes nowhere near the square of that: %s', (_name, make) => {
    const timed = (text: string) =>
      onCpu(() => {
        readCsvRows(text, most);
        readPastedRows(text, most);
      }).ms;
    const [short, long] = [make(N), make(16 * N)];
    const fewMs = Math.min(...Array.from({ length: 5 }, () => timed(short)));
    // The square would be 256 times; below a millisecond the clock says little.
    const allowedMs = 120 * Math.max(fewMs, limitHere(1));
    // The code's own time is the least of several: caches that other programs have emptied lengthen the others.
    let leastMs = Number.POSITIVE_INFINITY;
    for (let turn = 0; turn < 30 && leastMs >= allowedMs; turn += 1) leastMs = Math.min(leastMs, timed(long));
    expect(leastMs).toBeLessThan(allowedMs);
  });
});
