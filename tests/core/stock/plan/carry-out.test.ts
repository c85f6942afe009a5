/** Carrying out a cut plan: what goes off the shelf and what comes back, with hand-worked remnants and laws over random plans. */

import { describe, expect, test } from 'vitest';
import { enterChanges } from '../../../../core/stock/ledger/enter-changes.ts';
import type { FindRow } from '../../../../core/stock/ledger/shelf-row.ts';
import { carryOut, type KnownStock } from '../../../../core/stock/plan/carry-out.ts';
import type { CutPlan, Stretch } from '../../../../core/stock/plan/cut-plan.ts';
import type { StockRow } from '../../../../core/stock/plan/cut-problem.ts';
import { planCuts } from '../../../../core/stock/plan/plan-cuts.ts';
import { remnantRow } from '../../../../core/stock/plan/remnant-stock.ts';
import { stockLeft } from '../../../../core/stock/plan/stock-left.ts';
import type { StockItem } from '../../../../core/stock/stock-item.ts';
import { inches, type Length, mmOf } from '../../../../core/units/length.ts';
import { expectWithin } from '../../../tolerance.ts';
import { randomProblem, stick, stockBend } from './made-problems.ts';

const mm = (value: number): Length => ({ value, unit: 'mm' });

function itemOf(row: StockRow): StockItem {
  const { material, odMm, wallMm } = row.tube;
  const common = { id: row.id, material, od: mm(odMm), wall: mm(wallMm), count: row.count, note: '' };
  const kept = row.isRemnant ? { ...common, cutFrom: null } : common;
  if (row.kind === 'straight') return { ...kept, kind: 'straight', length: mm(row.lengthMm) };
  const legs = [mm(row.legsMm[0]), mm(row.legsMm[1])] as const;
  return { ...kept, kind: 'bend', clr: mm(row.clrMm), angleDeg: row.angleDeg, legs };
}

const known = (item: StockItem): KnownStock => ({ item, revision: 7 });
const opened = (rowId: string, ...stretches: readonly Stretch[]): Pick<CutPlan, 'opened'> => ({
  opened: [{ rowId, copy: 1, stretches }],
});

function withoutId({ id: _own, ...item }: StockItem): Omit<StockItem, 'id'> {
  return item;
}

function numbered(): () => string {
  let last = 0;
  return () => {
    last += 1;
    return `new-${last}`;
  };
}

describe('what comes back', () => {
  test('of 48 in straight tube with 20 and 10 in cut off at a kerf of 1/16 is 17 7/8 in', () => {
    // 48 - 20 - 1/16 - 10 - 1/16 = 17 7/8.
    const row = stick('bar', 1219.2, { count: 4 });
    const item: StockItem = { ...itemOf(row), kind: 'straight', length: inches(48) };
    const plan = opened(
      'bar',
      { kind: 'piece', pieceId: 'a', fromMm: 0, toMm: 508 },
      { kind: 'cut', fromMm: 508, toMm: 509.5875 },
      { kind: 'piece', pieceId: 'b', fromMm: 509.5875, toMm: 763.5875 },
      { kind: 'cut', fromMm: 763.5875, toMm: 765.175 },
      { kind: 'remnant', fromMm: 765.175, toMm: 1219.2 },
    );
    const changes = carryOut({ problem: { stock: [row] }, plan, stock: [known(item)] }, numbered());
    expect(changes).toEqual([
      { kind: 'move', itemId: 'bar', pieces: 1, reason: 'cut' },
      {
        kind: 'add',
        item: { ...item, id: 'new-1', count: 1, length: inches(17.875), cutFrom: 'bar' },
      },
    ]);
  });

  test('of a 90 of CLR 3 in with 45 cut off at a kerf of 2 mm is 43.4 degrees, with the other leg', () => {
    // 90 - 45 - 2 / 76.2 rad = 43.496 degrees, rounded down to a tenth.
    const row = stockBend('b', { angleDeg: 90, legsMm: [101.6, 101.6] });
    const item: StockItem = {
      ...itemOf(row),
      kind: 'bend',
      clr: inches(3),
      angleDeg: 90,
      legs: [inches(4), inches(4)],
    };
    const arc = (degrees: number) => (76.2 * (degrees * Math.PI)) / 180;
    const plan = opened(
      'b',
      { kind: 'scrap', fromMm: 0, toMm: 101.6 },
      { kind: 'piece', pieceId: 'a', fromMm: 101.6, toMm: 101.6 + arc(45) },
      { kind: 'cut', fromMm: 101.6 + arc(45), toMm: 103.6 + arc(45) },
      { kind: 'remnant', fromMm: 103.6 + arc(45), toMm: 203.2 + arc(90) },
    );
    const [, added] = carryOut({ problem: { stock: [row] }, plan, stock: [known(item)] }, numbered());
    expect(added).toEqual({
      kind: 'add',
      item: { ...item, id: 'new-1', count: 1, angleDeg: 43.4, legs: [inches(0), inches(4)], cutFrom: 'b' },
    });
  });

  test('nothing, where a remnant is used up: its row leaves the shelf, at the revision that the cut gave it', () => {
    const row = stick('rest', 300, { isRemnant: true });
    const plan = opened('rest', { kind: 'piece', pieceId: 'a', fromMm: 0, toMm: 300 });
    const changes = carryOut({ problem: { stock: [row] }, plan, stock: [known(itemOf(row))] }, numbered());
    expect(changes).toEqual([
      { kind: 'move', itemId: 'rest', pieces: 1, reason: 'cut' },
      { kind: 'retire', itemId: 'rest', revision: 8 },
    ]);
  });

  test('alike remnants are one row', () => {
    const row = stick('bar', 1000, { count: 2 });
    const cut = (copy: number) => ({
      rowId: 'bar',
      copy,
      stretches: [
        { kind: 'piece', pieceId: `p${copy}`, fromMm: 0, toMm: 398 },
        { kind: 'cut', fromMm: 398, toMm: 400 },
        { kind: 'remnant', fromMm: 400, toMm: 1000 },
      ] as const,
    });
    const plan = { opened: [cut(1), cut(2)] };
    const changes = carryOut({ problem: { stock: [row] }, plan, stock: [known(itemOf(row))] }, numbered());
    expect(changes).toMatchObject([
      { kind: 'move', pieces: 2 },
      { kind: 'add', item: { count: 2, length: mm(600) } },
    ]);
  });
});

test('whatever is planned, the book takes it, and the shelf holds what was kept, a saw step at most less', () => {
  let remnants = 0;
  for (let seed = 1; seed <= 200; seed += 1) {
    const problem = randomProblem(seed);
    const plan = planCuts(problem);
    const items = problem.stock.map(itemOf);
    const stock = items.map(known);
    const find: FindRow = (id) => {
      const item = items.find((one) => one.id === id);
      return item && { item, revision: 7, isRetired: false };
    };
    const changes = carryOut({ problem, plan, stock }, numbered());
    if (changes.length === 0) {
      expect(plan.opened).toEqual([]);
      continue;
    }
    const step = enterChanges(find, changes);
    if (!step.ok) throw new Error(`seed ${seed}: ${JSON.stringify(step.problems)}`);
    for (const item of items) {
      const used = plan.opened.filter(({ rowId }) => rowId === item.id).length;
      const left = step.value.rows.find(({ after }) => after.item.id === item.id)?.after.item.count ?? item.count;
      expect(left, `seed ${seed}`).toBe(item.count - used);
    }
    const left = stockLeft(items, problem, plan);
    const ids = new Set(items.map(({ id }) => id));
    const byId = (id: string) => left.find((one) => one.id === id)?.count ?? 0;
    for (const item of items)
      expect(byId(item.id)).toBe(item.count - plan.opened.filter(({ rowId }) => rowId === item.id).length);
    expect(left.filter(({ id }) => !ids.has(id)).map(({ id: _own, ...item }) => item)).toEqual(
      changes.flatMap((change) => (change.kind === 'add' ? [withoutId(change.item)] : [])),
    );
    const kept = plan.opened.flatMap(({ rowId, stretches }) => {
      const row = problem.stock.find(({ id }) => id === rowId);
      if (row === undefined) throw new Error('a row that is not there');
      return stretches.filter(({ kind }) => kind === 'remnant').map((stretch) => remnantRow(row, stretch, rowId));
    });
    const added = changes.flatMap((change) => (change.kind === 'add' ? [change.item] : []));
    const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0);
    const straightMm = (item: StockItem) =>
      item.kind === 'straight' ? mmOf(item.length) : mmOf(item.legs[0]) + mmOf(item.legs[1]);
    const keptMm = sum(kept.map((row) => (row.kind === 'straight' ? row.lengthMm : row.legsMm[0] + row.legsMm[1])));
    const addedMm = sum(added.map((item) => straightMm(item) * item.count));
    const keptDeg = sum(kept.map((row) => (row.kind === 'bend' ? row.angleDeg : 0)));
    const addedDeg = sum(added.map((item) => (item.kind === 'bend' ? item.angleDeg * item.count : 0)));
    expect(addedMm).toBeLessThanOrEqual(keptMm + 1e-6);
    expect(addedDeg).toBeLessThanOrEqual(keptDeg + 1e-6);
    // Two legs a remnant, each a tenth of a millimetre at most less.
    expectWithin(addedMm, keptMm, 0.2 * kept.length + 1e-6);
    expectWithin(addedDeg, keptDeg, 0.1 * kept.length + 1e-6);
    remnants += kept.length;
  }
  expect(remnants).toBeGreaterThan(50);
});
