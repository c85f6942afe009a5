/** Bending tables on screen: what is copied and saved reads back, and what cannot be read is explained. */

import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import { type TableKind, tableEdit } from '../../../core/edits/table-edits.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Header, Primary } from '../../../core/header/header.ts';
import { describeProblem } from '../../../core/index.ts';
import { placedPath } from '../../../core/path/ends/inlet-pose.ts';
import { noteWords, shownTable } from '../../../renderer/shape/tables/table-text.ts';
import { expectWithin } from '../../tolerance.ts';

const header = demoHeader('tables');
const INCH = { kind: 'fraction', per: 16 } as const;
const MM = { kind: 'mm', places: 1 } as const;

function primaryAt(index: number, from: Header = header): Primary {
  const primary = from.primaries[index];
  if (primary === undefined) throw new Error(`no primary ${index}`);
  return primary;
}

function readInto(kind: TableKind, text: string): Header {
  let count = 0;
  const newId = () => {
    count += 1;
    return `read-${count}`;
  };
  const made = tableEdit(kind, text, { primary: primaryAt(0), unit: 'in', newId });
  if (!made.ok) throw new Error(made.problems.map(describeProblem).join(' '));
  const done = applyEdit(header, made.value.edit);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  return done.value.header;
}

function endOf(primary: Primary) {
  const path = placedPath(primary);
  if (!path.ok) throw new Error(path.problems.map(describeProblem).join(' '));
  return path.value.end.point;
}

describe.each(['lra', 'xyz'] as const)('%s', (kind) => {
  for (const style of [INCH, MM]) {
    test(`saved in mm it reads back to the same end; copied from ${style.kind} to within what it was copied at`, () => {
      const table = shownTable(kind, primaryAt(0), style);
      if (!table.ok) throw new Error('the demo has tables');
      const wanted = endOf(primaryAt(0));
      const [exact, near] = [readInto(kind, table.value.csv), readInto(kind, table.value.tsv)].map((read) =>
        endOf(primaryAt(0, read)),
      );
      for (const axis of ['x', 'y', 'z'] as const) {
        expectWithin(exact?.[axis] ?? Number.NaN, wanted[axis], 1e-8);
        expectWithin(near?.[axis] ?? Number.NaN, wanted[axis], 2e-3);
      }
    });
  }

  test('shows a figure for every column named', () => {
    const table = shownTable(kind, primaryAt(2), INCH);
    if (!table.ok) throw new Error('the demo has tables');
    expect(table.value.columns).toHaveLength(4);
    for (const row of table.value.rows) expect(row).toHaveLength(4);
  });
});

test('a bend of 180 degrees is listed in parts, and that is said', () => {
  const primary = primaryAt(0);
  const pieces = primary.pieces.map((piece) =>
    piece.id === 'piece-1-2' && piece.kind === 'bend' ? { ...piece, angleDeg: 180 } : piece,
  );
  const table = shownTable('xyz', { ...primary, pieces }, INCH);
  expect(table.ok && table.value.notes).toEqual([expect.stringMatching(/Piece 2 turns 180°.* 2 equal bends/)]);
});

test('a point on a straight is left out, and that is said', () => {
  const text = 'x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n0,50,0,\n0,100,0,75\n100,100,0,\n';
  const made = tableEdit('xyz', text, { primary: primaryAt(0), unit: 'mm', newId: () => 'x' });
  expect(made.ok && made.value.notes.map(noteWords)).toEqual([expect.stringMatching(/Point 2 lies on the line/)]);
});

test.each([
  ['xyz', 'x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n100,0,0,50\n0,0,0,\n', /180°/],
  ['xyz', 'x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n0,0,0,\n', /same place/],
  ['lra', 'length_mm,angle_deg\n1,2\n', /no column for rotation/],
  ['lra', 'length_mm,rotation_deg,angle_deg,clr_mm\n10,0,ninety,50\n', /"ninety"/],
  ['lra', '', /no column/],
] as const)('%s that cannot be is refused in words', (kind, text, words) => {
  const made = tableEdit(kind, text, { primary: primaryAt(0), unit: 'mm', newId: () => 'x' });
  if (made.ok) throw new Error('it must not read');
  expect(made.problems.map(describeProblem).join(' ')).toMatch(words);
});
