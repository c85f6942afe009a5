/** Words: the names of steps, of places in a file and of every problem. */

import { describe, expect, test } from 'vitest';
import {
  addPiecesEdit,
  applyEdit,
  demoHeader,
  describeEdit,
  describeProblem,
  duplicatePieceEdit,
  type Edit,
  inches,
  markPiecesEdit,
  type Piece,
  type Primary,
  type Problem,
  placeWords,
  removeCollectorEdit,
  removePiecesEdit,
} from '../../../core/index.ts';

const demo = demoHeader('demo');
const second = demo.primaries[1] as Primary;
const bend = second.pieces[1] as Extract<Piece, { kind: 'bend' }>;
const straight = second.pieces[0] as Piece;
const replace = (piece: object): Edit => ({ kind: 'replacePiece', primaryId: second.id, piece: piece as Piece });

describe('names of steps', () => {
  test.each<[string, Edit]>([
    ['clocking of piece 2, primary 2', replace({ ...bend, clockingDeg: 10 })],
    ['angle of piece 2, primary 2', replace({ ...bend, angleDeg: 10 })],
    ['angle of piece 2, primary 2', replace({ ...bend, angleDeg: 11, clr: { ...bend.clr } })],
    ['CLR of piece 2, primary 2', replace({ ...bend, clr: inches(4) })],
    ['CLR of piece 2, primary 2', replace({ ...bend, clr: { ...bend.clr, unit: 'mm' } })],
    ['length of piece 1, primary 2', replace({ ...straight, length: inches(1) })],
    ['state of piece 2, primary 2', replace({ ...bend, state: 'welded' })],
    ['kind of piece 2, primary 2', replace({ ...bend, kind: 'pieCut', pies: 3 })],
    ['change of piece 2, primary 2', replace({ ...bend, angleDeg: 10, clockingDeg: 10 })],
    ['add bend 90\u00b0 to primary 2', { kind: 'addPiece', primaryId: second.id, piece: { ...bend, id: 'n' }, at: 0 }],
    [
      'add straight 3\u20091/2 in to primary 2',
      { kind: 'addPiece', primaryId: second.id, piece: { ...straight, id: 'n' }, at: 0 },
    ],
    ['remove piece 2, primary 2', { kind: 'removePiece', primaryId: second.id, pieceId: bend.id }],
    ['move piece 2, primary 2', { kind: 'movePiece', primaryId: second.id, pieceId: bend.id, to: 0 }],
    ['remove primary 2', { kind: 'removePrimary', primaryId: second.id }],
    ['port of primary 2', { kind: 'setPrimary', primaryId: second.id, set: { port: null } }],
    ['target', { kind: 'setSettings', set: { target: { kind: 'mean' } } }],
    ['name of the header', { kind: 'setHeader', set: { name: 'x' } }],
    ['remove collector 4-into-1', { kind: 'removeCollector', collectorId: 'collector-1' }],
    ['finish the header', { kind: 'finishHeader' }],
    ['mark primary 2 welded', markPiecesEdit(second, 'welded')],
  ])('%s', (words, edit) => {
    expect(describeEdit(edit, demo)).toBe(words);
  });
});

describe('steps of several edits', () => {
  test('marking a primary changes the pieces that are not in the state yet', () => {
    const result = applyEdit(demo, markPiecesEdit(demo.primaries[0] as Primary, 'welded'));
    expect(result.ok && result.value.header.primaries[0]?.pieces.every((piece) => piece.state === 'welded')).toBe(true);
    expect(markPiecesEdit(demo.primaries[0] as Primary, 'welded').edits.length).toBe(5);
  });

  test('a duplicate stands after its piece, free of lock and weld', () => {
    const edit = duplicatePieceEdit(demo.primaries[3] as Primary, 1, 'copy');
    expect(edit).toMatchObject({ at: 2, piece: { id: 'copy', state: 'tacked', angleDeg: 90 } });
    expect(duplicatePieceEdit(second, 99, 'copy')).toBe(null);
  });

  test('pieces are added in order, and removed together', () => {
    const pieces = [
      { ...bend, id: 'n1' },
      { ...straight, id: 'n2' },
    ];
    const added = applyEdit(demo, addPiecesEdit(second, pieces, 1));
    const after = added.ok ? (added.value.header.primaries[1] as Primary) : second;
    expect(after.pieces.slice(1, 3).map((piece) => piece.id)).toEqual(['n1', 'n2']);
    const removed = added.ok ? applyEdit(added.value.header, removePiecesEdit(after, ['n1', 'n2'])) : added;
    expect(removed.ok && removed.value.header).toEqual(demo);
  });

  test('removing a collector frees the primaries that end in it', () => {
    const result = applyEdit(demo, removeCollectorEdit(demo, 'collector-1'));
    expect(result.ok && result.value.header.primaries.map((primary) => primary.inletId)).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  test('a name that fills its limit still leaves a label that is accepted', () => {
    const longName = '\u{1f527}'.repeat(60);
    const named = { ...demo, primaries: demo.primaries.map((primary) => ({ ...primary, name: longName })) };
    expect(applyEdit(named, markPiecesEdit(named.primaries[0] as Primary, 'cut')).ok).toBe(true);
  });
});

test('places are told from the inside out, counted from 1', () => {
  expect(placeWords(['primaries', 2, 'pieces', 5, 'angleDeg'])).toBe('the angle of piece 6, primary 3');
  expect(placeWords(['collectors', 0, 'inlets', 1, 'slip', 'deeper', 'value'])).toBe(
    'the deeper of the slip of inlet 2, collector 1',
  );
  expect(placeWords(['settings', 'tube', 'od', 'unit'])).toBe('the unit of the OD of the tube of the settings');
  expect(placeWords([])).toBe('the file');
  expect(placeWords(['__proto__'])).toBe('the field "__proto__"');
});

test.each<[RegExp, Problem]>([
  [/disk .* full.*safe/, { kind: 'storage', fault: 'diskFull', file: 'evenrun.sqlite', detail: '' }],
  [/not written.*safe/, { kind: 'storage', fault: 'readOnly', file: 'evenrun.sqlite', detail: '' }],
  [/permission/, { kind: 'storage', fault: 'noPermission', file: 'evenrun.sqlite', detail: '' }],
  [/properly.*safe/, { kind: 'storage', fault: 'ioError', file: 'evenrun.sqlite', detail: '' }],
  [/damaged.*backup/, { kind: 'storage', fault: 'corrupt', file: 'evenrun.sqlite', detail: '' }],
  [/not a database of Evenrun/, { kind: 'storage', fault: 'notOurs', file: 'evenrun.sqlite', detail: '' }],
  [/newer version.*update/, { kind: 'storage', fault: 'newerVersion', file: 'evenrun.sqlite', detail: '' }],
  [/holding .*safe.*try again/, { kind: 'storage', fault: 'busy', file: 'evenrun.sqlite', detail: '' }],
  [/not there.*restore/, { kind: 'storage', fault: 'missing', file: 'evenrun.sqlite', detail: '' }],
  [/too long.*shorter path/, { kind: 'storage', fault: 'pathTooLong', file: 'evenrun.sqlite', detail: '' }],
  [/another window.*7.*5/, { kind: 'changedElsewhere', expected: 5, found: 7 }],
  [/stock item is not there/, { kind: 'notFound', what: 'stockItem', id: 'a' }],
  [/"Four" is finished/, { kind: 'finished', name: 'Four' }],
  [/nothing to redo/, { kind: 'nothingToUndo', action: 'redo' }],
  [/Nothing was changed/, { kind: 'invalidRequest', call: 'start', detail: 'x' }],
  [/Open the address that Evenrun printed.*start Evenrun again/, { kind: 'pageUnknown' }],
  [/reference r-1/, { kind: 'internal', reference: 'r-1' }],
  [/still used by primary 1/, { kind: 'stillUsed', path: ['primaries', 0, 'inletId'], id: 'i', by: 'primary 1' }],
  [
    /Place 10 .*the pieces of primary 1.* has 7/,
    { kind: 'placeOutOfList', path: ['primaries', 0, 'pieces'], at: 9, length: 7 },
  ],
  [/finished and cannot/, { kind: 'headerFinished', path: ['state'] }],
  [/nothing to reopen/, { kind: 'headerNotFinished', path: ['state'] }],
  [/no column "primary"/, { kind: 'missingColumn', path: ['primary'], column: 'primary' }],
  [/cannot be split/, { kind: 'unreadableFile', reason: 'notCsv', path: [], detail: '' }],
])('%s', (words, problem) => {
  expect(describeProblem(problem)).toMatch(words);
  expect(describeProblem(problem)).toMatch(/^[A-Z"a-z].*\.$/s);
});
