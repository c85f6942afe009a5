/** CSV of LRA and XYZ tables: as documented, and reading back to the same numbers. */

import { describe, expect, test } from 'vitest';
import type { LraTable } from '../../../core/path/tables/bending-table.ts';
import { lraCsv, readLraCsv, readXyzCsv, xyzCsv } from '../../../core/path/tables/table-csv.ts';
import { foundValue, problemOf, seededRandom } from './made-primaries.ts';
import { at, PUBLISHED_PIPE } from './published-pipe.ts';

describe('CSV', () => {
  const table: LraTable = {
    rows: [
      { lengthMm: 12.345678901234567, rotationDeg: -0, angleDeg: 90, clrMm: 76.2 },
      { lengthMm: 0, rotationDeg: -45.5, angleDeg: 1e-7, clrMm: 50 },
    ],
    lastLengthMm: 5,
  };

  test('the LRA file reads as documented', () => {
    expect(lraCsv(table)).toBe(
      'length_mm,rotation_deg,angle_deg,clr_mm\r\n12.345678901234567,0,90,76.2\r\n0,-45.5,1e-7,50\r\n5,,,\r\n',
    );
  });

  test('the XYZ file reads as documented', () => {
    expect(xyzCsv({ points: [at(0, 0, 0), at(1.5, 0, 0, 80), at(1.5, 9, 0)] })).toBe(
      'x_mm,y_mm,z_mm,clr_mm\r\n0,0,0,\r\n1.5,0,0,80\r\n1.5,9,0,\r\n',
    );
  });

  test('both read back to the same numbers', () => {
    expect(foundValue(readLraCsv(lraCsv(table)))).toEqual({
      ...table,
      rows: [{ ...table.rows[0], rotationDeg: 0 }, table.rows[1]],
    });
    expect(foundValue(readXyzCsv(xyzCsv({ points: PUBLISHED_PIPE }))).points).toEqual(PUBLISHED_PIPE);
  });

  test('inches, semicolons, quotes, a byte-order mark, other columns and blank lines are taken', () => {
    const text = '\ufeff"Note"; ANGLE_deg;clr_in;"length_in";rotation_deg\n\nfirst;90;3;1;0\n;;;2;\n;;;;\n';
    expect(foundValue(readLraCsv(text))).toEqual({
      rows: [{ lengthMm: 25.4, rotationDeg: 0, angleDeg: 90, clrMm: expect.closeTo(76.2, 9) }],
      lastLengthMm: 50.8,
    });
  });

  test('a file that ends on a bend has no last straight, and an empty rotation is 0', () => {
    const text = 'length_mm,rotation_deg,angle_deg,clr_mm\n10,,45,80\n';
    expect(foundValue(readLraCsv(text))).toEqual({
      rows: [{ lengthMm: 10, rotationDeg: 0, angleDeg: 45, clrMm: 80 }],
      lastLengthMm: 0,
    });
  });

  test.each([
    ['', { kind: 'tableColumnMissing', column: 'length' }],
    ['length_mm,rotation_deg,angle_deg\n1,2,3', { kind: 'tableColumnMissing', column: 'clr' }],
    ['length_mm,rotation_deg,angle_deg,clr_mm\n', { kind: 'tableTooShort', rows: 0 }],
    [
      'length_mm,rotation_deg,angle_deg,clr_mm\n1,2,x9,80\n5,,,',
      { kind: 'tableCell', row: 1, column: 'angle', found: 'x9' },
    ],
    [
      'length_mm,rotation_deg,angle_deg,clr_mm\n1,2,,80\n5,,,',
      { kind: 'tableCell', row: 1, column: 'angle', found: '' },
    ],
    ['length_mm,rotation_deg,angle_deg,clr_mm\n1e999,2,3,80\n5,,,', { kind: 'tableCell', row: 1, column: 'length' }],
    ['length_mm,rotation_deg,angle_deg,clr_mm\n=1+1,2,3,80\n5,,,', { kind: 'tableCell', row: 1, column: 'length' }],
    [`length_mm,rotation_deg,angle_deg,clr_mm\n${'1,2,3,4\n'.repeat(600)}`, { kind: 'tableTooLong', limit: 500 }],
  ])('a bad LRA file is refused with its place: %j', (text, expected) => {
    expect(problemOf(readLraCsv(text))).toMatchObject(expected);
  });

  test('a bad XYZ file likewise', () => {
    expect(problemOf(readXyzCsv('x_mm,y_mm,clr_mm\n1,2,3'))).toMatchObject({ kind: 'tableColumnMissing', column: 'z' });
    expect(problemOf(readXyzCsv('x_mm,y_mm,z_mm,clr_mm\n1,,3,'))).toMatchObject({
      kind: 'tableCell',
      row: 1,
      column: 'y',
    });
  });

  test('what is too long to be a table is refused whole, never cut', () => {
    const wide = `length_mm,rotation_deg,angle_deg,clr_mm,note\n${`1,2,3,4,${'x'.repeat(2500)}\n`.repeat(500)}`;
    expect(problemOf(readLraCsv(wide))).toMatchObject({ kind: 'unreadableFile', reason: 'tooLarge' });
    const blank = `length_mm,rotation_deg,angle_deg,clr_mm\n${'\n'.repeat(20_000)}5,,,\n`;
    expect(problemOf(readLraCsv(blank))).toMatchObject({ kind: 'tableTooLong' });
  });

  test('the longest tables are read: 500 bends and a last straight, 502 points', () => {
    const rows = Array.from({ length: 500 }, () => ({
      lengthMm: 1e6,
      rotationDeg: -360,
      angleDeg: 1 / 3,
      clrMm: 1e-300,
    }));
    const lra = { rows, lastLengthMm: 1e6 };
    expect(foundValue(readLraCsv(lraCsv(lra)))).toEqual(lra);
    const points = Array.from({ length: 502 }, (_, index) => at(-1e6 + index / 3, 1e6, index, 0.1 + 0.2));
    expect(foundValue(readXyzCsv(xyzCsv({ points })))).toEqual({ points });
    expect(problemOf(readXyzCsv(xyzCsv({ points: [...points, at(0, 0, 0)] })))).toEqual({
      kind: 'tableTooLong',
      table: 'xyz',
      limit: 502,
    });
  });

  test('random bytes never throw (seed 47)', () => {
    const random = seededRandom(47);
    const alphabet = 'length_mm,rotation_deg,angle_deg,clr_mm;\t"\r\n0123456789.-+eE=xyz\u0000';
    for (let round = 0; round < 2000; round += 1) {
      const text = Array.from(
        { length: Math.floor(random() * 200) },
        () => alphabet[Math.floor(random() * alphabet.length)],
      ).join('');
      for (const read of [readLraCsv(text), readXyzCsv(text)]) expect(read.ok || read.problems.length > 0).toBe(true);
    }
  });
});
