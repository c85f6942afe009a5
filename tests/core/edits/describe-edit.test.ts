/** The names of steps, as they stand on the undo button. */

import { describe, expect, test } from 'vitest';
import { describeEdit } from '../../../core/edits/describe-edit.ts';
import { batchOf, type Edit } from '../../../core/edits/edit.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Piece, Primary } from '../../../core/header/header.ts';
import { inches } from '../../../core/units/length.ts';

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
      'add straight 3\u20091/2" to primary 2',
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
    ['welded: 2 pieces of primary 2', batchOf('welded: 2 pieces of primary 2', [])],
  ])('%s', (words, edit) => {
    expect(describeEdit(edit, demo)).toBe(words);
  });
});
