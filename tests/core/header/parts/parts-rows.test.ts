/** Parts lists and pasted rows: both ways without loss, and every row that cannot be read is told. */

import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { partsRows } from '../../../../core/header/parts/parts-rows.ts';
import {
  copiedPieces,
  demoHeader,
  type Header,
  type Piece,
  readPartsRows,
  readPastedPieces,
} from '../../../../core/index.ts';
import { readPastedRows } from '../../../../core/spreadsheet/read-rows.ts';
import { inches, millimetres } from '../../../../core/units/length.ts';
import { headerArbitrary, pieceArbitrary } from '../../../generators/headers.ts';

function counter(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `n${count}`;
  };
}

const read = (rows: readonly (readonly string[])[], unit: 'in' | 'mm' = 'in') =>
  readPartsRows(rows, { unit, newId: counter() });

/** All that a list keeps: notes and names lose space at their ends. */
const kept = ({ id: _id, ...piece }: Piece) => ({ ...piece, note: piece.note.trim() });
const contents = (primaries: Header['primaries']) =>
  primaries.map((primary) => ({ name: primary.name.trim(), pieces: primary.pieces.map(kept) }));

describe('parts lists', () => {
  test('a header that is written as a list and read gives the same pieces', () => {
    const units = fc.constantFrom('in' as const, 'mm' as const);
    fc.assert(
      fc.property(headerArbitrary(), units, (header, unit) => {
        const names = header.primaries.map((primary) => primary.name.trim());
        fc.pre(new Set(names).size === names.length);
        const { primaries, refused } = read(partsRows(header, unit), unit);
        expect(refused).toEqual([]);
        expect(contents(primaries)).toEqual(contents(header.primaries));
      }),
      { numRuns: 500 },
    );
  });

  test('primaries of one name stay apart', () => {
    const demo = demoHeader('demo');
    const same = { ...demo, primaries: demo.primaries.map((primary) => ({ ...primary, name: 'left' })) };
    const { primaries } = read(partsRows(same, 'in'));
    expect(primaries.map((primary) => primary.name)).toEqual(['left', 'left (2)', 'left (3)', 'left (4)']);
    expect(primaries.map((primary) => primary.pieces.length)).toEqual([9, 9, 7, 7]);
  });

  test('long names that are the same stay apart and stay names', () => {
    const demo = demoHeader('demo');
    // 119 and 120 units long; the second ends in a character of two units, at the place of the cut for a number.
    for (const name of ['n'.repeat(119), `${'n'.repeat(115)}\u{1f527}nnn`]) {
      const same = { ...demo, primaries: demo.primaries.map((primary) => ({ ...primary, name })) };
      const { primaries, refused } = read(partsRows(same, 'in'));
      expect(refused).toEqual([]);
      expect(new Set(primaries.map((primary) => primary.name)).size).toBe(4);
      expect(primaries.map((primary) => primary.pieces.length)).toEqual([9, 9, 7, 7]);
    }
  });

  test('columns come in any order and case, and the kind may be left out', () => {
    const { primaries, refused } = read([
      ['Pies', 'ANGLE', ' clr ', 'Length', 'Primary'],
      ['', '', '', '2 1/4', '1'],
      ['', '90', '3', '', '1'],
      ['5', '90', '100 mm', '', '2'],
      [],
      ['', '', '', '', ' '],
    ]);
    expect(refused).toEqual([]);
    expect(primaries.map((primary) => [primary.name, primary.pieces.map((piece) => piece.kind)])).toEqual([
      ['1', ['straight', 'bend']],
      ['2', ['pieCut']],
    ]);
    expect(primaries[0]?.pieces[0]).toEqual({
      kind: 'straight',
      id: 'n2',
      state: 'tacked',
      locked: false,
      note: '',
      length: inches(2.25),
    });
  });

  test('a heading may name the unit of the bare numbers below it, in a file and in pasted rows', () => {
    const rows = [
      ['primary', 'Length (inches)', 'CLR mm', 'angle'],
      ['1', '2 1/4', '', ''],
      ['1', '70 mm', '', ''],
      ['1', '', '76.2', '90'],
    ];
    const pieces = [{ length: inches(2.25) }, { length: millimetres(70) }, { clr: millimetres(76.2) }];
    for (const unit of ['in', 'mm'] as const) {
      const context = { unit, newId: () => 'n', clr: inches(3) };
      const list = readPartsRows(rows, context);
      expect(list.refused).toEqual([]);
      expect(list.primaries[0]?.pieces).toMatchObject(pieces);
      const pasted = readPastedPieces(rows.map((row) => row.join('\t')).join('\n'), context);
      expect(pasted.refused).toEqual([]);
      expect(pasted.pieces).toMatchObject(pieces);
    }
  });

  test('ids come from newId and are never the same', () => {
    const { primaries } = read(partsRows(demoHeader('demo'), 'in'));
    const ids = primaries.flatMap((primary) => [primary.id, ...primary.pieces.map((piece) => piece.id)]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('rows that can be read are kept beside those that cannot, which are told with line and column', () => {
    const { primaries, refused } = read([
      ['primary', 'length', 'state'],
      ['1', '2', ''],
      ['1', '3 5/', ''],
      ['1', '4', 'WELDED'],
      ['1', '4', 'glued'],
    ]);
    expect(primaries[0]?.pieces.map((piece) => piece.state)).toEqual(['tacked', 'welded']);
    expect(refused).toMatchObject([
      { line: 3, column: 'length', problem: { kind: 'unreadableLength', reason: 'noDenominator' } },
      { line: 5, column: 'state', problem: { kind: 'invalidValue', path: ['state'], found: '"glued"' } },
    ]);
  });

  test('65 primaries or 501 pieces are one too many', () => {
    const many = Array.from({ length: 65 }, (_, index) => [`c${index}`, '1']);
    expect(read([['primary', 'length'], ...many])).toMatchObject({
      primaries: { length: 64 },
      refused: [{ line: 66, problem: { kind: 'tooMany', limit: 64 } }],
    });
    const long = Array.from({ length: 501 }, () => ['1', '1']);
    const { primaries, refused } = read([['primary', 'length'], ...long]);
    expect(primaries[0]?.pieces.length).toBe(500);
    expect(refused).toMatchObject([{ line: 502, problem: { kind: 'tooMany', limit: 500 } }]);
  });
});

describe('pasted pieces', () => {
  const paste = (text: string) => readPastedPieces(text, { unit: 'in', clr: inches(3), newId: counter() });

  test('pieces that are copied and pasted are the same', () => {
    fc.assert(
      fc.property(
        fc.array(pieceArbitrary(), { maxLength: 6 }),
        fc.constantFrom('in' as const, 'mm' as const),
        (pieces, unit) => {
          const pasted = readPastedPieces(copiedPieces(pieces, { unit }), { unit, clr: inches(3), newId: counter() });
          expect(pasted.refused).toEqual([]);
          expect(pasted.pieces.map(kept)).toEqual(pieces.map(kept));
        },
      ),
      { numRuns: 500 },
    );
  });

  const HOSTILE = [
    '=1+1',
    '+1',
    '-1',
    '@x',
    '\t=1',
    '"',
    '"a"',
    "'=1",
    "'",
    '=1\n"x"\ty',
    '\uff1d1',
    '-1-1',
    '- low',
    'a\tb\nc',
  ];

  test.each(HOSTILE)('the note %j is copied without a live formula, and pasted as it was', (note) => {
    const bend = {
      kind: 'bend',
      id: 'n1',
      state: 'tacked',
      locked: false,
      note: note.trim(),
      clr: inches(3),
      angleDeg: 90,
      clockingDeg: -45,
    } as const;
    const text = copiedPieces([bend], { unit: 'in' });
    // As a spreadsheet sees it: the same parser, but nothing of ours that takes marks away.
    const seen = Papa.parse<string[]>(text.trimEnd(), { delimiter: '\t', newline: '\n' }).data.flat();
    for (const cell of seen) expect(cell).not.toMatch(/^\s*[=@\uff1d]|^\s*[+-](?!\d+$)/);
    expect(seen).toContain('-45');
    expect(paste(text)).toEqual({ pieces: [bend], refused: [], commas: [] });
  });

  test('exactly ten thousand rows are read, with a last line end or without; one more is told', () => {
    const rows = (count: number) => `length\n${'1\n'.repeat(count)}`;
    for (const text of [rows(10_000), rows(10_000).trimEnd()]) {
      expect(paste(text)).toMatchObject({ pieces: { length: 10_000 }, refused: [] });
    }
    expect(paste(rows(10_001)).refused).toMatchObject([{ problem: { kind: 'tooMany', limit: 10_000 } }]);
  });

  test('500 pieces with the longest notes are pasted as they were copied', () => {
    const pieces = Array.from({ length: 500 }, (_, index) => ({
      kind: 'straight' as const,
      id: `n${index + 1}`,
      state: 'cut' as const,
      locked: true,
      note: `=${'"\n'.repeat(999)}x`,
      length: inches(0.1 + 0.2),
    }));
    expect(paste(copiedPieces(pieces, { unit: 'in' }))).toEqual({ pieces, refused: [], commas: [] });
  });

  test('one column is read line by line as the entry line reads it', () => {
    const { pieces, refused } = paste('2 1/4\r\nb90 180\r\n\r\n3 5/\r\n=\r\n');
    expect(pieces.map((piece) => piece.kind)).toEqual(['straight', 'bend', 'bend']);
    expect(refused).toMatchObject([{ line: 4, column: null, problem: { reason: 'noDenominator' } }]);
  });

  test('inch marks in cells are not taken for quotes', () => {
    expect(paste('2 3/4"\n').pieces).toMatchObject([{ length: inches(2.75) }]);
    expect(paste('"2 3/4"""\n').pieces).toMatchObject([{ length: inches(2.75) }]);
  });

  test('rows without headings are kind, size, CLR, clocking, pies, state, note', () => {
    const { pieces, refused } = paste(
      'straight\t2\nbend\t90\t4\t-45\t\twelded\tlow\npie-cut\t90\t\t\t5\nbend\tfour\t\t\n',
    );
    expect(pieces).toMatchObject([
      { kind: 'straight', length: inches(2), state: 'tacked' },
      { kind: 'bend', angleDeg: 90, clr: inches(4), clockingDeg: -45, state: 'welded', note: 'low' },
      { kind: 'pieCut', angleDeg: 90, clr: inches(3), clockingDeg: null, pies: 5 },
    ]);
    expect(refused).toMatchObject([{ line: 4, column: 'angle' }]);
  });

  test('rows with headings may come in any order and may hold a primary', () => {
    const { pieces, refused } = paste('\nprimary\tangle\tlength\n1\t90\t\n1\t\t70 mm\n1\t-9\t\n');
    expect(pieces).toMatchObject([
      { kind: 'bend', angleDeg: 90 },
      { kind: 'straight', length: millimetres(70) },
    ]);
    expect(refused).toMatchObject([{ line: 5, column: 'angle', problem: { reason: 'angleOutOfRange' } }]);
  });

  test('nothing pasted gives nothing', () => {
    expect(paste('')).toEqual({ pieces: [], refused: [], commas: [] });
    expect(paste('\n\t\n')).toEqual({ pieces: [], refused: [], commas: [] });
  });

  test('a column that shows that its commas are decimal is read so, and says which it read', () => {
    const { pieces, refused, commas } = paste(
      'kind\tlength\tangle\tnote\nstraight\t57,25\t\t1,5\nstraight\t1,500\nbend\t\t90\n',
    );
    expect(refused).toEqual([]);
    expect(pieces).toMatchObject([{ length: inches(57.25), note: '1,5' }, { length: inches(1.5) }, { angleDeg: 90 }]);
    expect(commas).toEqual(['57,25', '1,500']);
    expect(paste('57,5\nb22,5 180\n').pieces).toMatchObject([{ length: inches(57.5) }, { angleDeg: 22.5 }]);
  });

  test('commas that could stand between thousands are refused unless the language writes decimal ones', () => {
    expect(paste('1,500\n2,250\n').refused).toMatchObject([
      { problem: { reason: 'decimalComma' } },
      { problem: { reason: 'decimalComma' } },
    ]);
    const read = readPastedPieces('1,500\n', { unit: 'in', clr: inches(3), newId: counter(), decimalComma: true });
    expect(read).toMatchObject({ pieces: [{ length: inches(1.5) }], refused: [], commas: ['1,500'] });
    expect(paste('57,5\n60.5\n').refused).toMatchObject([{ line: 1, problem: { reason: 'decimalComma' } }]);
  });

  test('cells are split at tabs and line ends, and quoted cells hold both', () => {
    const tabbedRows = (text: string) => readPastedRows(text, { mostRows: 10 });
    expect(tabbedRows('a\t\tb\n"x\ty\n""z"""\t1')).toEqual([
      ['a', '', 'b'],
      ['x\ty\n"z"', '1'],
    ]);
    expect(tabbedRows('"open\tb\r\nc')).toEqual([['"open', 'b'], ['c']]);
  });
});
