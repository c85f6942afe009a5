/** Moves in words, marks, previews and what can be let go: all from what the search found, none of it in the document. */

import { describe, expect, test } from 'vitest';
import { freeOffer } from '../../../core/edits/piece-state-edits.ts';
import {
  applyEdit,
  demoHeader,
  type Header,
  type MoveOutcome,
  matchHeader,
  mmOf,
  type StockItem,
  type StockNeed,
  suggestHeaderMoves,
  suggestMoves,
  type ToFree,
} from '../../../core/index.ts';
import { askedOptions, FIRST_SETTINGS } from '../../../renderer/moves/move-settings.ts';
import { lackingLine } from '../../../renderer/moves/proposals/move-cells.ts';
import { previewOf } from '../../../renderer/moves/proposals/moves-preview.ts';
import { pieceMarks } from '../../../renderer/moves/proposals/piece-marks.ts';
import { COLUMNS } from '../../../renderer/moves/proposals/proposal.ts';
import { rowAfter } from '../../../renderer/moves/proposals/proposal-table.tsx';
import { cheaperSentence, moveProposals, movesOf, planProposals } from '../../../renderer/moves/proposals/proposals.ts';
import { verdictMark } from '../../../renderer/ui/words/verdict-words.ts';

const header = demoHeader('h');
const plain = (text: string) => text.replaceAll('\u2009', ' ');

/** The header with changes to the pieces of primary 3, by place. */
function withPieces(change: (index: number) => object): Header {
  return {
    ...header,
    primaries: header.primaries.map((primary) =>
      primary.id === 'primary-3'
        ? { ...primary, pieces: primary.pieces.map((piece, index) => ({ ...piece, ...change(index) })) }
        : primary,
    ),
  };
}

function proposalsFor(of: Header, primaryId: string) {
  const outcome = suggestMoves(of, primaryId);
  if (outcome.before === null) throw new Error('no standing');
  return moveProposals({ moves: movesOf(outcome), before: outcome.before }, of);
}

describe('a move', () => {
  test('is said with length, verdict, joints, cuts, tube, end and clearance, lengths with their unit', () => {
    const [first] = proposalsFor(header, 'primary-3');
    expect(plain(first?.said ?? '')).toBe('Lengthen straight 7 by 3/16", a new one of 10 11/16"');
    expect(COLUMNS.map((column) => plain(first?.cells[column].text ?? ''))).toEqual([
      verdictMark('inBand').word,
      '–',
      '0',
      '1',
      '1',
      '3/16"',
      '3/16" deep',
      '1/4"',
      '–',
    ]);
    expect(first?.cells.result.verdict).toBe('inBand');
  });

  test('names what it takes from the shelf and what the shelf lacks', () => {
    const { tube, clr } = header.settings;
    const none = { value: 0, unit: 'in' } as const;
    const bend: StockItem = {
      kind: 'bend',
      id: 's',
      ...tube,
      count: 1,
      note: '',
      clr,
      angleDeg: 90,
      legs: [none, none],
    };
    const outcome = suggestMoves(header, 'primary-3', { stock: [bend] });
    const [first] =
      outcome.before === null ? [] : moveProposals({ moves: movesOf(outcome), before: outcome.before }, header);
    expect(first?.cells.shelf.text).toMatch(/^✕ lacks \d+$/);
    expect(first?.lines.map(plain)).toEqual(['Not on the shelf: 10 11/16" of straight']);
  });

  test('says once what is lacking more than once, and sums up many straights', () => {
    const bend = (angleDeg: number): StockNeed => ({
      kind: 'bend',
      angleDeg,
      clr: header.settings.clr,
      onShelf: 'none',
    });
    const straight = (lengthMm: number): StockNeed => ({ kind: 'straight', lengthMm, isOnShelf: false });
    const { display } = header.settings;
    const said = (...needs: StockNeed[]) => plain(lackingLine(needs, display) ?? '');
    expect(said(bend(90), straight(25.4), bend(45), bend(90), straight(50.8))).toBe(
      'Not on the shelf: 2 bends 90° at CLR 3", bend 45° at CLR 3", 1" of straight, 2" of straight',
    );
    expect(said(straight(25.4), straight(50.8), straight(6.35))).toBe('Not on the shelf: 3 straights, 3 1/4" in all');
    expect(lackingLine([{ kind: 'straight', lengthMm: 1, isOnShelf: true }], display)).toBeNull();
  });

  test('in the preview comes out as its figures say, and the header is left as it was', () => {
    const before = structuredClone(header);
    for (const proposal of proposalsFor(header, 'primary-3')) {
      const preview = previewOf(proposal, header);
      const match = preview?.report.primaries.find(({ primaryId }) => primaryId === 'primary-3');
      expect(match?.side).toBe('inBand');
      expect(match?.lengthMm).toBeCloseTo(proposal.moves[0]?.lengthMm ?? 0, 6);
    }
    expect(header).toEqual(before);
    expect(previewOf(null, header)).toBeNull();
  });

  test('marks what it cuts, frees and re-clocks', () => {
    const tacked = withPieces(() => ({ state: 'tacked' }));
    const [move] = movesOf(suggestMoves(tacked, 'primary-3', { kinds: ['straights'] }));
    if (move === undefined) throw new Error('no move');
    const marks = pieceMarks(tacked, [move]);
    const pieces = tacked.primaries[2]?.pieces ?? [];
    for (const change of move.changes) {
      if (change.kind !== 'length') continue;
      const word = mmOf(change.to) > mmOf(change.from) ? 'replaced' : 'cut';
      expect(marks.get(pieces[change.pieceIndex]?.id ?? '')).toContain(word);
    }
    for (const joint of move.cost.jointsBroken) expect(marks.get(pieces[joint]?.id ?? '')).toContain('freed');
    const building = withPieces((index) => (index === 6 ? { state: 'planned' } : {}));
    const [planned] = movesOf(suggestMoves(building, 'primary-3'));
    expect([...pieceMarks(building, planned === undefined ? [] : [planned])]).toEqual([['piece-3-7', 'changed']]);
  });
});

describe('all primaries', () => {
  test('have a plan that keeps the target first, with one line a primary, and it brings all into the band', () => {
    const found = suggestHeaderMoves(header);
    if (found.kind !== 'found') throw new Error('no plans');
    const [keep, ...others] = planProposals(found, header, matchHeader(header));
    expect(plain(keep?.said ?? '')).toBe('Keep the target of 35 1/4"; change 2 primaries');
    expect(keep?.lines.map((line) => line.slice(0, 10))).toEqual(['Primary 2:', 'Primary 3:']);
    const after = previewOf(keep ?? null, header)?.report.primaries.map(({ side }) => side);
    expect(after).toEqual(['inBand', 'inBand', 'inBand', 'inBand']);
    expect(others.every(({ said }) => said.startsWith('Move the target to '))).toBe(true);
  });

  test('are told when moving the target takes fewer joints', () => {
    const found = suggestHeaderMoves(header);
    if (found.kind !== 'found') throw new Error('no plans');
    expect(cheaperSentence({ ...found, cheaper: null }, header)).toBeNull();
    const cheaper = { ...found.asItIs, targetMm: 25.4, jointsMade: 0, unsolved: [] };
    const asItIs = { ...found.asItIs, jointsMade: 4 };
    expect(plain(cheaperSentence({ ...found, asItIs, cheaper }, header) ?? '')).toBe(
      'Moving the target to 1" takes 0 joints; keeping it and changing 2 primaries takes 4.',
    );
    const priced = { ...found, asItIs: { ...asItIs, price: 80 }, cheaper: { ...cheaper, price: 12.5 } };
    expect(plain(cheaperSentence(priced, header, 'minutes') ?? '')).toBe(
      'Moving the target to 1" takes 12.5 min; keeping it and changing 2 primaries takes 80 min.',
    );
  });
});

test('a target is said so that it is the same one when it is typed', () => {
  const found = suggestHeaderMoves(header);
  if (found.kind !== 'found') throw new Error('no plans');
  const saidOf = (targetMm: number, display: Header['settings']['display']) => {
    const target = { kind: 'typed', length: { value: targetMm, unit: 'mm' } } as const;
    const cheaper = { ...found.asItIs, target, targetMm, jointsMade: 0, unsolved: [] };
    const shown = { ...header, settings: { ...header.settings, display } };
    return plain(cheaperSentence({ ...found, cheaper }, shown) ?? '').replace(/ takes.*/, '');
  };
  expect(saidOf(889.58, { kind: 'mm', places: 1 })).toBe('Moving the target to 889.58 mm');
  expect(saidOf(889.6, { kind: 'mm', places: 1 })).toBe('Moving the target to 889.6 mm');
  expect(saidOf(35.023 * 25.4, { kind: 'fraction', per: 16 })).toBe('Moving the target to 35.023"');
  expect(saidOf(35.0625 * 25.4, { kind: 'fraction', per: 16 })).toBe('Moving the target to 35 1/16"');
});

describe('what can be let go', () => {
  const toFreeOf = (outcome: MoveOutcome) => (outcome.kind === 'none' ? outcome.toFree : null);

  test('locks come off by the button, and then there is a move', () => {
    const locked = withPieces(() => ({ locked: true, state: 'tacked' }));
    const toFree = toFreeOf(suggestMoves(locked, 'primary-3'));
    const primary = locked.primaries[2];
    if (toFree === null || primary === undefined) throw new Error('nothing to free');
    const offer = freeOffer(primary, toFree);
    expect(offer?.name).toMatch(/^Unlock pieces? \d/);
    const freed = offer === null ? null : applyEdit(locked, offer.edit);
    if (freed?.ok !== true) throw new Error('refused');
    expect(suggestMoves(freed.value.header, 'primary-3').kind).toBe('found');
  });

  test('tacks alone are no part of the document', () => {
    const primary = header.primaries[2];
    if (primary === undefined) throw new Error('no primary');
    const toFree: ToFree = {
      lockedPieces: [],
      weldedPieces: [],
      weldedJoints: [],
      tackedJoints: [2],
      jointsMade: 1,
    };
    expect(freeOffer(primary, toFree)).toBeNull();
    const weld = freeOffer(primary, { ...toFree, weldedJoints: [3] });
    expect(weld?.name).toBe('The weld is cut: make piece 4 tacked');
  });
});

test('an empty shelf is not considered, and nothing typed is no limit', () => {
  expect(askedOptions(FIRST_SETTINGS, [])).toEqual({});
  expect(askedOptions(FIRST_SETTINGS, null)).toEqual({});
  const clearanceKept = { value: 0.5, unit: 'in' } as const;
  const asked = askedOptions(
    { ...FIRST_SETTINGS, mostJoints: 2, clearanceKept, usesShelf: false, addsBends: false },
    null,
  );
  const { kinds, ...others } = asked;
  expect(others).toEqual({ maxJoints: 2, clearanceKeptMm: 12.7 });
  expect(kinds).toEqual(['straights', 'clockings', 'trims', 'swaps', 'bendOut', 'lengthOnly']);
});

test('arrow keys stop at the ends of the list', () => {
  expect([rowAfter('ArrowDown', -1, 3), rowAfter('ArrowDown', 2, 3), rowAfter('ArrowUp', 0, 3)]).toEqual([0, 2, 0]);
  expect([rowAfter('End', 0, 3), rowAfter('Home', 2, 3), rowAfter('Tab', 0, 3)]).toEqual([2, 0, null]);
});
