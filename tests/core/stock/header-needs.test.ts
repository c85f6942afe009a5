/** What a header needs in all against the shelf, and what the shelf has to offer in a tube, worked by hand. */

import { expect, test } from 'vitest';
import type { Header, Piece } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { headerNeeds } from '../../../core/stock/header-needs.ts';
import { shelfOffers } from '../../../core/stock/shelf-offers.ts';
import type { StockBend, StockItem } from '../../../core/stock/stock-item.ts';
import { inches, mmOf } from '../../../core/units/length.ts';

const header = newHeader({ id: 'h', name: 'Needs' });
const { tube } = header.settings;
let ids = 0;
const common = (state: Piece['state']) => {
  ids += 1;
  return { id: `p${ids}`, state, locked: false, note: '' };
};
const bend = (angleDeg: number, clr: number, state: Piece['state'] = 'planned'): Piece => ({
  kind: 'bend',
  ...common(state),
  clr: inches(clr),
  angleDeg,
  clockingDeg: 0,
});
const straight = (length: number, state: Piece['state'] = 'planned'): Piece => ({
  kind: 'straight',
  ...common(state),
  length: inches(length),
});
const withPieces = (...pieces: readonly Piece[]): Header => ({
  ...header,
  primaries: [{ id: 'a', name: 'a', tube: null, port: null, inletId: null, pieces: [...pieces] }],
});
const stockBend = (angleDeg: number, clr: number, count: number, leg = 4): StockBend => ({
  ...tube,
  kind: 'bend',
  id: `s${angleDeg}-${clr}-${count}`,
  clr: inches(clr),
  angleDeg,
  legs: [inches(leg), inches(0)],
  count,
  note: '',
});
const stockStraight = (length: number, count: number): StockItem => ({
  ...tube,
  kind: 'straight',
  id: `t${length}`,
  length: inches(length),
  count,
  note: '',
});

test('degrees and lengths are summed by CLR, of what is still planned', () => {
  const needs = headerNeeds(
    withPieces(bend(90, 3), bend(60, 3), bend(45, 3, 'cut'), bend(30, 4), straight(10), straight(6, 'tacked')),
    [stockBend(90, 3, 2), stockStraight(48, 1)],
  );
  expect(needs).toMatchObject([
    { kind: 'bend', pieces: 2, neededDeg: 150, onHand: 2, onHandDeg: 180, lacking: 0 },
    { kind: 'bend', pieces: 1, neededDeg: 30, onHand: 0, onHandDeg: 0, lacking: 1 },
    { kind: 'straight', pieces: 1, onHand: 1, lacking: 0 },
  ]);
  const straights = needs.at(-1);
  expect(straights?.kind === 'straight' && [straights.neededMm, straights.onHandMm]).toEqual([
    mmOf(inches(10)),
    mmOf(inches(48)),
  ]);
});

test('a piece larger than any item on hand is lacking, however much there is in all', () => {
  const needs = headerNeeds(withPieces(bend(120, 3), straight(50)), [stockBend(90, 3, 9), stockStraight(48, 9)]);
  expect(needs.map(({ lacking }) => lacking)).toEqual([1, 1]);
});

test('nothing planned needs nothing', () => {
  expect(headerNeeds(withPieces(bend(90, 3, 'welded'), straight(4, 'cut')), [])).toEqual([]);
  expect(headerNeeds(header, [])).toEqual([]);
});

test('CLRs, angles and legs are offered once each, in order, of what is on hand in the tube', () => {
  const other: StockItem = { ...stockBend(15, 2, 3, 9), material: 'another' };
  const remnant: StockItem = { ...stockStraight(3.5, 1), cutFrom: null };
  const stock = [
    stockBend(90, 4, 1),
    stockBend(45, 3, 2, 2.5),
    stockBend(90, 3, 1),
    stockBend(30, 2, 0),
    other,
    remnant,
  ];
  expect(shelfOffers([...stock, stockStraight(48, 2)], tube)).toEqual({
    clrs: [inches(3), inches(4)],
    anglesDeg: [45, 90],
    legs: [inches(2.5), inches(3.5), inches(4)],
  });
});
