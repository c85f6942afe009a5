/** Edits: what each changes, how it is taken back, and what is refused. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdits } from '../../../core/edits/apply-edit.ts';
import {
  applyEdit,
  checkHeader,
  demoHeader,
  type Edit,
  type Header,
  type HeaderProblem,
  type Piece,
  removePrimaryEdit,
  writeHeader,
} from '../../../core/index.ts';
import { inches } from '../../../core/units/length.ts';
import { leastMs, limitHere } from '../../cpu-time.ts';
import { editArbitrary } from '../../generators/edits.ts';
import { bigHeader, headerArbitrary } from '../../generators/headers.ts';

const { EVENRUN_LONG } = process.env;
const RUNS = EVENRUN_LONG === '1' ? 20_000 : 2_000;

const straight = (id: string, valueIn = 2): Piece => ({
  kind: 'straight',
  id,
  state: 'tacked',
  locked: false,
  note: '',
  length: inches(valueIn),
});

function frozen<Value>(value: Value): Value {
  if (typeof value === 'object' && value !== null) {
    Object.values(value).forEach(frozen);
    Object.freeze(value);
  }
  return value;
}

function applied(header: Header, edit: Edit): { readonly header: Header; readonly inverse: Edit } {
  const result = applyEdit(header, edit);
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.problems)}`);
  return result.value;
}

function problemsOf(header: Header, edit: unknown): readonly HeaderProblem[] {
  const result = applyEdit(header, edit as Edit);
  expect(result.ok).toBe(false);
  return result.ok ? [] : result.problems;
}

const demo = frozen(demoHeader('demo'));

describe('laws of edits', () => {
  test('an edit and then its inverse give back the header; a refused edit changes nothing', {
    timeout: 900_000,
  }, () => {
    const counts = { taken: 0, refused: 0 };
    const kinds = new Set<string>();
    const cases = headerArbitrary().chain((header) => fc.tuple(fc.constant(header), editArbitrary(header)));
    fc.assert(
      fc.property(cases, ([header, edit]) => {
        const before = writeHeader(header);
        const result = applyEdit(frozen(header), frozen(edit));
        expect(writeHeader(header)).toBe(before);
        if (!result.ok) {
          counts.refused += 1;
          expect(result.problems.length).toBeGreaterThan(0);
          return;
        }
        counts.taken += 1;
        kinds.add(edit.kind);
        expect(checkHeader(result.value.header).ok).toBe(true);
        const back = applied(result.value.header, result.value.inverse);
        expect(back.header).toEqual(header);
        expect(writeHeader(back.header)).toBe(before);
        const again = applied(back.header, back.inverse);
        expect(again.header).toEqual(result.value.header);
      }),
      { numRuns: RUNS },
    );
    // Both branches, and every kind of edit, must really have been tried.
    expect(counts.taken).toBeGreaterThan(RUNS / 4);
    expect(counts.refused).toBeGreaterThan(RUNS / 50);
    expect(kinds.size).toBe(22);
  });

  test('undoing a list of edits from the last to the first gives back the header', () => {
    const cases = headerArbitrary().chain((header) =>
      fc.tuple(fc.constant(header), fc.array(editArbitrary(header), { minLength: 2, maxLength: 8 })),
    );
    fc.assert(
      fc.property(cases, ([header, edits]) => {
        const undo: Edit[] = [];
        let now = header;
        for (const edit of edits) {
          const result = applyEdit(now, edit);
          if (!result.ok) continue;
          now = result.value.header;
          undo.unshift(result.value.inverse);
        }
        for (const inverse of undo) now = applied(now, inverse).header;
        expect(now).toEqual(header);
      }),
      { numRuns: RUNS / 4 },
    );
  });
});

describe('what an edit changes', () => {
  test('primaries that an edit does not touch stay the same objects', () => {
    const after = applied(demo, { kind: 'addPiece', primaryId: 'primary-2', piece: straight('new'), at: 1 }).header;
    expect(after.primaries.map((primary, index) => primary === demo.primaries[index])).toEqual([
      true,
      false,
      true,
      true,
    ]);
    expect(after.primaries[1]?.pieces[0]).toBe(demo.primaries[1]?.pieces[0]);
    expect(after.settings).toBe(demo.settings);
    expect(after.collectors).toBe(demo.collectors);
  });

  test('a piece is added, moved, replaced and removed at its place', () => {
    const ids = (header: Header) => header.primaries[2]?.pieces.slice(0, 4).map((piece) => piece.id);
    const primaryId = 'primary-3';
    const added = applied(demo, { kind: 'addPiece', primaryId, piece: straight('new'), at: 1 }).header;
    expect(ids(added)).toEqual(['piece-3-1', 'new', 'piece-3-2', 'piece-3-3']);
    const moved = applied(added, { kind: 'movePiece', primaryId, pieceId: 'new', to: 3 }).header;
    expect(ids(moved)).toEqual(['piece-3-1', 'piece-3-2', 'piece-3-3', 'new']);
    const replaced = applied(moved, { kind: 'replacePiece', primaryId, piece: straight('new', 7) }).header;
    expect(replaced.primaries[2]?.pieces[3]).toEqual(straight('new', 7));
    const removed = applied(replaced, { kind: 'removePiece', primaryId, pieceId: 'new' }).header;
    expect(removed).toEqual(demo);
  });

  test('text is stored in NFC and negative zero as zero', () => {
    const renamed = applied(demo, { kind: 'setHeader', set: { name: 'Kru\u0308mmer' } }).header;
    expect(renamed.name).toBe('Kr\u00fcmmer');
    const piece = { ...straight('new'), length: { value: -0, unit: 'in' as const } };
    const after = applied(demo, { kind: 'addPiece', primaryId: 'primary-1', piece, at: 0 }).header;
    const [first] = after.primaries[0]?.pieces ?? [];
    expect(first?.kind === 'straight' && Object.is(first.length.value, 0)).toBe(true);
  });

  test('a field set to undefined is left alone', () => {
    const set = { name: undefined, note: 'x' } as unknown as { note: string };
    const { header, inverse } = applied(demo, { kind: 'setHeader', set });
    expect([header.name, header.note]).toEqual([demo.name, 'x']);
    expect(inverse).toEqual({ kind: 'setHeader', set: { note: demo.note } });
  });
});

describe('batches', () => {
  test('a batch happens wholly or not at all', () => {
    const good: Edit = { kind: 'setHeader', set: { name: 'Other' } };
    const bad: Edit = { kind: 'removePiece', primaryId: 'primary-1', pieceId: 'nobody' };
    expect(applyEdits(demo, [good, bad]).ok).toBe(false);
    expect(demo.name).toBe('Hill-climb four');
    const both = applyEdits(demo, [good, { kind: 'batch', label: 'inner', edits: [{ kind: 'finishHeader' }] }], 'both');
    expect(both.ok && [both.value.header.name, both.value.header.state]).toEqual(['Other', 'finished']);
  });

  test('references need only hold at the end of a batch', () => {
    const after = applied(demo, removePrimaryEdit(demo, 'primary-4'));
    expect(after.header.settings.target).toEqual({ kind: 'longest' });
    expect(applied(after.header, after.inverse).header).toEqual(demo);
  });
});

describe('refusals', () => {
  const piece = demo.primaries[0]?.pieces[1] as Piece;

  test.each<[string, unknown, Partial<HeaderProblem>]>([
    [
      'a negative CLR',
      { kind: 'replacePiece', primaryId: 'primary-1', piece: { ...piece, clr: inches(-3) } },
      { kind: 'invalidValue', path: ['piece', 'clr', 'value'] },
    ],
    ['an unknown kind', { kind: 'explode' }, { kind: 'invalidValue', path: ['kind'] }],
    ['no edit at all', null, { kind: 'invalidValue', path: [] }],
    ['an unknown field', { kind: 'finishHeader', why: 'x' }, { kind: 'unknownField', path: ['why'] }],
    [
      'an id that is there',
      { kind: 'addPiece', primaryId: 'primary-1', piece: straight('piece-2-1'), at: 0 },
      { kind: 'duplicateId', id: 'piece-2-1' },
    ],
    [
      'an unknown primary',
      { kind: 'addPiece', primaryId: 'nobody', piece: straight('new'), at: 0 },
      { kind: 'unknownId', id: 'nobody', what: 'primary' },
    ],
    [
      'an unknown piece',
      { kind: 'movePiece', primaryId: 'primary-1', pieceId: 'nobody', to: 0 },
      { kind: 'unknownId', id: 'nobody', what: 'piece' },
    ],
    [
      'an unknown collector',
      { kind: 'removeCollector', collectorId: 'nobody' },
      { kind: 'unknownId', what: 'collector' },
    ],
    ['an unknown obstacle', { kind: 'removeObstacle', obstacleId: 'nobody' }, { kind: 'unknownId', what: 'obstacle' }],
    [
      'an unknown inlet',
      { kind: 'setPrimary', primaryId: 'primary-1', set: { inletId: 'nobody' } },
      { kind: 'unknownId', what: 'inlet' },
    ],
    [
      'a taken inlet',
      { kind: 'setPrimary', primaryId: 'primary-2', set: { inletId: 'inlet-1' } },
      { kind: 'invalidValue', path: ['primaries', 1, 'inletId'] },
    ],
    [
      'a place past the list',
      { kind: 'addPiece', primaryId: 'primary-3', piece: straight('new'), at: 8 },
      { kind: 'placeOutOfList', at: 8, length: 7 },
    ],
    [
      'a move past the list',
      { kind: 'movePrimary', primaryId: 'primary-1', to: 4 },
      { kind: 'placeOutOfList', at: 4, length: 3 },
    ],
    [
      'removing the target',
      { kind: 'removePrimary', primaryId: 'primary-4' },
      { kind: 'stillUsed', id: 'primary-4', by: 'the target' },
    ],
    [
      'removing inlets in use',
      { kind: 'removeCollector', collectorId: 'collector-1' },
      { kind: 'stillUsed', id: 'inlet-1', by: 'primary 1' },
    ],
    [
      'a wall that fills the tube',
      { kind: 'setSettings', set: { tube: { ...demo.settings.tube, wall: inches(1) } } },
      { kind: 'invalidValue', path: ['settings', 'tube', 'wall'] },
    ],
    ['reopening an open header', { kind: 'reopenHeader' }, { kind: 'headerNotFinished' }],
  ])('%s is refused', (_name, edit, expected) => {
    expect(problemsOf(demo, edit)[0]).toMatchObject(expected);
  });

  test('an inlet cannot be placed at the end of the primary that ends in it', () => {
    const [collector] = demo.collectors;
    const inlets = collector?.inlets.map((inlet) =>
      inlet.id === 'inlet-2' ? { ...inlet, place: { kind: 'endOf', primaryId: 'primary-2' } } : inlet,
    );
    const [problem] = problemsOf(demo, { kind: 'replaceCollector', collector: { ...collector, inlets } });
    expect(problem).toMatchObject({ kind: 'invalidValue', path: ['primaries', 1, 'inletId'] });
  });

  test('a full primary takes no more pieces', () => {
    const full = bigHeader(1, 500);
    const [problem] = problemsOf(full, { kind: 'addPiece', primaryId: 'p0', piece: straight('new'), at: 0 });
    expect(problem).toEqual({ kind: 'tooMany', path: ['primaries', 0, 'pieces'], limit: 500 });
  });

  test('a finished header takes nothing but its reopening', () => {
    const finished = applied(demo, { kind: 'finishHeader' }).header;
    fc.assert(
      fc.property(editArbitrary(finished), (edit) => {
        const first = edit.kind === 'batch' ? edit.edits[0] : edit;
        if (first === undefined || first.kind === 'reopenHeader') return;
        expect(problemsOf(finished, edit)[0]?.kind).toBe('headerFinished');
      }),
    );
    expect(applied(finished, { kind: 'reopenHeader' }).header).toEqual(demo);
  });
});

test('adding and replacing a piece among 8 primaries of 20 take well under 0.2 ms', () => {
  const header = bigHeader(8, 20);
  const edits: readonly Edit[] = [
    { kind: 'addPiece', primaryId: 'p5', piece: straight('new'), at: 10 },
    { kind: 'replacePiece', primaryId: 'p5', piece: straight('p5-4', 3) },
  ];
  for (const edit of edits) {
    expect(leastMs(1_000, () => applied(header, edit))).toBeLessThan(limitHere(0.2));
  }
});
