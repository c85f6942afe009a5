/** Names that the program offers, what files are taken for, and what is said before finishing. */

import { describe, expect, test } from 'vitest';
import { applyEdits } from '../../../core/edits/apply-edit.ts';
import { setStateEdit } from '../../../core/edits/piece-state-edits.ts';
import { addPartsEdit, namesInHeader } from '../../../core/edits/primary-edits.ts';
import { safeFileName } from '../../../core/header/file-name.ts';
import type { Header } from '../../../core/header/header.ts';
import { newId } from '../../../core/header/new-header.ts';
import {
  applyEdit,
  demoHeader,
  headerClearances,
  matchHeader,
  newHeader,
  readHeader,
  writeHeader,
} from '../../../core/index.ts';
import { namedLike } from '../../../renderer/headers/header-rows.tsx';
import type { HeaderSummary } from '../../../renderer/headers/header-summary.ts';
import { tallyWords } from '../../../renderer/headers/header-tally.ts';
import { acceptWords, addWords, renamedWords } from '../../../renderer/headers/importing/file-preview.tsx';
import type { Preview } from '../../../renderer/headers/importing/given-preview.ts';
import { guessKind } from '../../../renderer/headers/importing/import-dialog.tsx';
import { headerOfParts, nameFromFile } from '../../../renderer/headers/importing/use-import.ts';
import { freeHeaderName } from '../../../renderer/headers/new-header-line.tsx';
import { finishNotes, whyNotFinish } from '../../../renderer/ui/words/finish-notes.ts';
import { seededRandom } from '../../trust/seeded-random.ts';

/** As the bridge hands them over. */
function demoPrimaries(): Extract<Preview, { kind: 'parts' }>['primaries'] {
  return structuredClone(demoHeader('demo').primaries) as Extract<Preview, { kind: 'parts' }>['primaries'];
}

test('the offered name is the first that is not taken', () => {
  expect(freeHeaderName([])).toBe('Header 1');
  expect(freeHeaderName(['header 1', 'Header 3', ' Header 2 '])).toBe('Header 4');
  expect(freeHeaderName(['Hill-climb four'])).toBe('Header 1');
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
    { kind: 'parts', primaries, refused: [], commas: [] },
    { fileName: 'left bank.csv', unit: 'mm' },
  );
  expect(header).toMatchObject({ name: 'left bank', settings: { display: { kind: 'mm' } } });
  expect(nameFromFile('.csv')).toBe('Imported parts');
  expect(nameFromFile(`${'x'.repeat(300)}.csv`)).toHaveLength(120);
});

test('there is no button for importing nothing', () => {
  expect(acceptWords({ kind: 'parts', primaries: [], refused: [], commas: [] })).toBeNull();
  expect(acceptWords({ kind: 'stock', lines: [], changes: [], refused: [], commas: [], said: [] })).toBeNull();
  expect(acceptWords({ kind: 'parts', primaries: demoPrimaries().slice(0, 1), refused: [], commas: [] })).toBe(
    'Make a header of 1 primary',
  );
});

test('a parts list is added to an open header as one step, behind what is there, and one undo takes it out', () => {
  const header = demoHeader('demo');
  const random = seededRandom(7);
  const edit = addPartsEdit(header, demoPrimaries().slice(0, 2), () => newId(random));
  const done = applyEdit(header, edit);
  if (!done.ok) throw new Error('the parts were refused');
  const { primaries } = done.value.header;
  expect(primaries.slice(0, header.primaries.length)).toEqual(header.primaries);
  expect(primaries).toHaveLength(header.primaries.length + 2);
  expect(new Set(primaries.map(({ name }) => name)).size).toBe(primaries.length);
  expect(primaries.at(-2)?.pieces).toHaveLength(header.primaries[0]?.pieces.length ?? 0);
  const back = applyEdit(done.value.header, done.value.inverse);
  expect(back.ok && back.value.header).toEqual(header);
});

test('a name of the list is kept where it is free, and says what it becomes where it is not', () => {
  const named = (...names: string[]) => names.map((name) => ({ name }));
  const header = { ...newHeader({ id: 'h', name: 'Left bank' }), primaries: demoPrimaries().slice(0, 2) };
  const [first, second] = header.primaries.map(({ name }) => name);
  expect(namesInHeader(header, named('A', 'B'))).toEqual(['A', 'B']);
  const given = namesInHeader(header, named(first ?? '', second ?? '', '7'));
  expect(new Set([first, second, ...given]).size).toBe(5);
  expect(given[2]).toBe('7');
  const preview: Preview = { kind: 'parts', primaries: demoPrimaries().slice(0, 1), refused: [], commas: [] };
  expect(renamedWords(preview, header)).toContain(`${first} becomes `);
  expect(renamedWords(preview, newHeader({ id: 'h', name: 'Left bank' }))).toBeNull();
});

test('a parts list is offered to the open header only, and not to a finished one', () => {
  const preview: Preview = { kind: 'parts', primaries: demoPrimaries().slice(0, 1), refused: [], commas: [] };
  const open = newHeader({ id: 'h', name: 'Left bank' });
  expect(addWords(preview, open)).toBe('Add 1 primary to Left bank');
  expect(addWords(preview, null)).toBeNull();
  expect(addWords(preview, { ...open, state: 'finished' })).toBeNull();
  expect(addWords({ ...preview, primaries: [] }, open)).toBeNull();
});

test('a header is found by parts of its name in any order and case', () => {
  const named = (name: string) => ({ name }) as HeaderSummary;
  const all = [named('Hill-climb four'), named('Left bank V8'), named('right BANK v8')];
  expect(namedLike(all, 'v8 bank').map(({ name }) => name)).toEqual(['Left bank V8', 'right BANK v8']);
  expect(namedLike(all, '')).toHaveLength(3);
  expect(namedLike(all, 'six')).toEqual([]);
});

test('a list counts how the primaries stand, by side, mark and word', () => {
  // The demo: its fourth sets the length, its third is 3/16 in short, its second 1/4 in long, its first fits.
  const demo = demoHeader('demo');
  // Mark, count and word stay together: only after a comma may a line be broken.
  expect(tallyWords(matchHeader(demo)).split(' ')).toEqual([
    '◀\u00a01\u00a0short,',
    '▶\u00a01\u00a0long,',
    '●\u00a01\u00a0OK',
  ]);
  const third = demo.primaries[2];
  const planned = third === undefined ? null : setStateEdit(third, third.pieces.slice(-1), 'planned');
  const building = planned === null ? null : applyEdit(demo, planned);
  if (!building?.ok) throw new Error('its last piece cannot be planned');
  expect(tallyWords(matchHeader(building.value.header)).replaceAll('\u00a0', ' ')).toBe('▶ 1 long, ● 1 OK, 1 to go');
  expect(tallyWords(matchHeader(newHeader({ id: 'h', name: 'x' })))).toBe('');
});

describe('before finishing', () => {
  const notesOf = (header: Header) => finishNotes(header, matchHeader(header), headerClearances(header).tight);

  test('an empty header is said to be empty', () => {
    expect(notesOf(newHeader({ id: 'h', name: 'x' }))).toEqual(['It has no primaries.']);
  });

  test('a header without a single piece cannot be finished, and it says why', () => {
    const empty = newHeader({ id: 'h', name: 'x' });
    expect(whyNotFinish(empty)).toMatch(/no pieces/);
    const [first] = demoHeader('demo').primaries;
    if (first === undefined) throw new Error('the demo has primaries');
    expect(whyNotFinish({ ...empty, primaries: [{ ...first, pieces: [] }] })).toMatch(/no pieces/);
    expect(whyNotFinish({ ...empty, primaries: [{ ...first, pieces: [] }, first] })).toBeNull();
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

  test('nothing is said of a header that is welded, in the band and with gaps enough', () => {
    const demo = demoHeader('demo');
    const done = applyEdits(demo, [
      {
        kind: 'setSettings',
        set: {
          tolerance: { minus: { value: 2, unit: 'in' }, plus: { value: 2, unit: 'in' } },
          wantedGap: { value: 0.125, unit: 'in' },
        },
      },
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
    const closer = applyEdit(done.value.header, {
      kind: 'setSettings',
      set: { wantedGap: { value: 0.25, unit: 'in' } },
    });
    if (!closer.ok) throw new Error('no other clearance');
    expect(notesOf(closer.value.header)).toEqual([
      '1 gap under the minimum clearance of 1/4"; the least: 0.248", 0.002" under. See Fit.',
    ]);
  });
});

test('an unsaved header leaves under a plain file name, and reads back the same', () => {
  const header = { ...demoHeader('demo'), name: '../Left: bank? "V8"' };
  expect(safeFileName(header.name, ' (not saved).json')).toBe('Left bank V8 (not saved).json');
  expect(safeFileName('???', ' (not saved).json')).toBe('untitled (not saved).json');
  expect(readHeader(writeHeader(header))).toEqual({ ok: true, value: header });
});
