/** Names that the program offers, what files are taken for, and what is said before finishing. */

import { describe, expect, test } from 'vitest';
import type { Header } from '../../../core/header/header.ts';
import { applyEdits, demoHeader, matchHeader, newHeader, readHeader, writeHeader } from '../../../core/index.ts';
import { fileNameOf } from '../../../renderer/headers/export-unsaved.ts';
import { acceptWords } from '../../../renderer/headers/file-preview.tsx';
import { finishNotes } from '../../../renderer/headers/finish-notes.ts';
import { nameOfCopy } from '../../../renderer/headers/header-acts.ts';
import type { HeaderSummary } from '../../../renderer/headers/header-row.tsx';
import { namedLike } from '../../../renderer/headers/header-rows.tsx';
import { guessKind, type Preview } from '../../../renderer/headers/import-dialog.tsx';
import { freeHeaderName } from '../../../renderer/headers/new-header-line.tsx';
import { headerOfParts, nameFromFile } from '../../../renderer/headers/use-import.ts';

/** As the bridge hands them over. */
function demoPrimaries(): Extract<Preview, { kind: 'parts' }>['primaries'] {
  return structuredClone(demoHeader('demo').primaries) as Extract<Preview, { kind: 'parts' }>['primaries'];
}

test('the offered name is the first that is not taken', () => {
  expect(freeHeaderName([])).toBe('Header 1');
  expect(freeHeaderName(['header 1', 'Header 3', ' Header 2 '])).toBe('Header 4');
  expect(freeHeaderName(['Hill-climb four'])).toBe('Header 1');
});

test('the name of a copy keeps within the limit of a name', () => {
  expect(nameOfCopy('Hill-climb four')).toBe('Hill-climb four (copy)');
  expect(nameOfCopy('x'.repeat(120))).toHaveLength(120);
  expect(nameOfCopy('x'.repeat(120)).endsWith(' (copy)')).toBe(true);
});

test('a file is taken for what its ending and the screen suggest', () => {
  expect(guessKind('four.json', true)).toBe('header');
  expect(guessKind('four', false)).toBe('header');
  expect(guessKind('Parts.CSV', false)).toBe('parts');
  expect(guessKind('stock.csv', true)).toBe('stock');
});

test('a header made of a parts list is one that the file format takes', () => {
  const primaries = demoPrimaries();
  const header = headerOfParts(
    { kind: 'parts', primaries, refused: [] },
    { fileName: 'left bank.csv', unit: 'mm', id: 'h1' },
  );
  expect(header).toMatchObject({ id: 'h1', name: 'left bank', settings: { display: { kind: 'mm' } } });
  expect(nameFromFile('.csv')).toBe('Imported parts');
  expect(nameFromFile(`${'x'.repeat(300)}.csv`)).toHaveLength(120);
});

test('there is no button for importing nothing', () => {
  expect(acceptWords({ kind: 'parts', primaries: [], refused: [] })).toBeNull();
  expect(acceptWords({ kind: 'stock', items: [], refused: [] })).toBeNull();
  expect(acceptWords({ kind: 'parts', primaries: demoPrimaries().slice(0, 1), refused: [] })).toBe(
    'Make a header of 1 primary',
  );
});

test('a header is found by parts of its name in any order and case', () => {
  const named = (name: string) => ({ name }) as HeaderSummary;
  const all = [named('Hill-climb four'), named('Left bank V8'), named('right BANK v8')];
  expect(namedLike(all, 'v8 bank').map(({ name }) => name)).toEqual(['Left bank V8', 'right BANK v8']);
  expect(namedLike(all, '')).toHaveLength(3);
  expect(namedLike(all, 'six')).toEqual([]);
});

describe('before finishing', () => {
  const notesOf = (header: Header) => finishNotes(header, matchHeader(header));

  test('an empty header is said to be empty', () => {
    expect(notesOf(newHeader({ id: 'h', name: 'x' }))).toEqual(['It has no primaries.']);
  });

  test('each primary out of the band is named with its deviation, and pieces not welded are counted', () => {
    const demo = demoHeader('demo');
    const report = matchHeader(demo);
    const outside = report.primaries.filter(({ verdict }) => verdict === 'short' || verdict === 'long');
    const notes = notesOf(demo);
    expect(outside.length).toBeGreaterThan(0);
    for (const { name } of outside) expect(notes.some((note) => note.startsWith(`Primary ${name} is `))).toBe(true);
    const unwelded = demo.primaries.flatMap(({ pieces }) => pieces).filter(({ state }) => state !== 'welded').length;
    expect(notes.at(-1)).toBe(`${unwelded} pieces not marked as welded.`);
  });

  test('nothing is said of a header that is welded and in the band', () => {
    const demo = demoHeader('demo');
    const done = applyEdits(demo, [
      { kind: 'setSettings', set: { tolerance: { minus: { value: 2, unit: 'in' }, plus: { value: 2, unit: 'in' } } } },
      ...demo.primaries.flatMap(({ id, pieces }) =>
        pieces.map((piece) => ({
          kind: 'replacePiece' as const,
          primaryId: id,
          piece: { ...piece, state: 'welded' as const },
        })),
      ),
    ]);
    if (!done.ok) throw new Error('the demo could not be welded');
    expect(notesOf(done.value.header)).toEqual([]);
  });
});

test('an unsaved header leaves under a plain file name, and reads back the same', () => {
  const header = { ...demoHeader('demo'), name: '../Left: bank? "V8"' };
  expect(fileNameOf(header)).toBe('Left bank V8 (not saved).json');
  expect(fileNameOf({ ...header, name: '???' })).toBe('header (not saved).json');
  expect(readHeader(writeHeader(header))).toEqual({ ok: true, value: header });
});
