/** Two headers side by side, with figures worked by hand. */

import { describe, expect, test } from 'vitest';
import { compareHeaders } from '../../../core/archive/compare-headers.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Header, Piece, Primary } from '../../../core/header/header.ts';
import type { KeptPlan } from '../../../core/stock/plan/kept-plan.ts';
import { inches } from '../../../core/units/length.ts';

const common = { state: 'welded' as const, locked: false, note: '' };
const straight = (id: string, length: number): Piece => ({ ...common, kind: 'straight', id, length: inches(length) });
const bend = (id: string): Piece => ({ ...common, kind: 'bend', id, clr: inches(3), angleDeg: 90, clockingDeg: 0 });

function primary(name: string, pieces: readonly Piece[]): Primary {
  return { id: `id-${name}`, name, tube: null, port: null, inletId: null, pieces };
}

function header(name: string, primaries: readonly Primary[], over: Partial<Header['settings']> = {}): Header {
  const demo = demoHeader(name);
  const settings = { ...demo.settings, target: { kind: 'longest' as const }, ...over };
  return { ...demo, name, state: 'finished', settings, primaries, collectors: [] };
}

const compare = (one: Header, other: Header) =>
  compareHeaders({ header: one, plans: [] }, { header: other, plans: [] });
const figure = (one: Header, other: Header, name: string) =>
  compare(one, other).figures.find((found) => found.name === name);

/** 10 and 12 in of straight: target 12, mean 11, spread 2. */
const ONE = header('One', [primary('1', [straight('a', 10)]), primary('2', [straight('b', 5), straight('c', 7)])]);
/** 13 and 12 in, and a third of a 90 on 3 in: 3 pi / 2 = 4.712 in. Target 13, spread 13 - 4.712. */
const OTHER = header('Other', [
  primary('2', [straight('a', 13)]),
  primary('1', [straight('b', 12)]),
  primary('3', [bend('c')]),
]);

describe('figures of both, and the other less the first', () => {
  test.each([
    ['Target', [304.8, 330.2], 25.4],
    ['Mean', [279.4, (25.4 * (13 + 12 + 1.5 * Math.PI)) / 3], (25.4 * (13 + 12 + 1.5 * Math.PI)) / 3 - 279.4],
    ['Spread', [50.8, 25.4 * (13 - 1.5 * Math.PI)], 25.4 * (13 - 1.5 * Math.PI) - 50.8],
    ['Tube OD', [44.45, 44.45], 0],
    ['Tube in it', [25.4 * 22, 25.4 * (25 + 1.5 * Math.PI)], 25.4 * (3 + 1.5 * Math.PI)],
  ])('%s', (name, values, byMm) => {
    const found = figure(ONE, OTHER, name);
    expect(found?.kind).toBe('length');
    for (const place of [0, 1]) expect(found?.values[place]).toBeCloseTo(values[place] ?? Number.NaN, 9);
    expect(found?.kind === 'length' ? found.byMm : null).toBeCloseTo(byMm, 9);
  });

  test.each([
    ['Primaries', [2, 3], 1],
    ['Bends', [0, 1], 1],
    ['Pie-cut bends', [0, 0], 0],
    ['Straights', [3, 2], -1],
    ['Joints between pieces', [1, 0], -1],
    ['Saw cuts, by cut plans', [null, null], null],
  ])('%s', (name, values, by) => {
    expect(figure(ONE, OTHER, name)).toMatchObject({ kind: 'count', values, by });
  });

  test('materials are the same whatever their case', () => {
    const tube = { ...ONE.settings.tube, material: ONE.settings.tube.material.toUpperCase() };
    expect(figure(ONE, header('Capitals', ONE.primaries, { tube }), 'Material')).toMatchObject({ isSame: true });
    const mild = { ...tube, material: 'mild steel' };
    expect(figure(ONE, header('Mild', ONE.primaries, { tube: mild }), 'Material')).toMatchObject({ isSame: false });
  });
});

test('primaries are paired by name, and what the other has more of stands alone', () => {
  const { primaries } = compare(ONE, OTHER);
  expect(primaries.map(({ names }) => names)).toEqual([
    ['1', '1'],
    ['2', '2'],
    [null, '3'],
  ]);
  expect(primaries.map(({ byMm }) => (byMm === null ? null : Math.round(byMm * 100) / 100))).toEqual([
    50.8,
    25.4,
    null,
  ]);
});

test('names that the other has not are paired in their order', () => {
  const lettered = header('Lettered', [primary('left', []), primary('right', [straight('a', 1)])]);
  expect(compare(ONE, lettered).primaries.map(({ names }) => names)).toEqual([
    ['1', 'left'],
    ['2', 'right'],
  ]);
  expect(compare(lettered, header('None', [])).primaries.map(({ names }) => names)).toEqual([
    ['left', null],
    ['right', null],
  ]);
});

test('of primaries that are called alike each is paired with one', () => {
  const alike = header('Alike', [
    primary('1', [straight('a', 10)]),
    { ...primary(' 1', [straight('b', 12)]), id: 'second' },
  ]);
  expect(compare(alike, alike).primaries.map(({ names, byMm }) => [names, byMm])).toEqual([
    [['1', '1'], 0],
    [[' 1', ' 1'], 0],
  ]);
  expect(compare(ONE, alike).primaries.map(({ names }) => names)).toEqual([
    ['1', '1'],
    ['2', ' 1'],
  ]);
});

test('what was measured on both stands beside the lengths', () => {
  const string = { kind: 'centreline' as const, length: inches(10.25), within: inches(0.125) };
  const measured = header('Measured', [{ ...primary('1', [straight('a', 10)]), measured: [string] }]);
  const [first] = compare(ONE, measured).primaries;
  expect(first?.builtMm[0]).toBeNull();
  expect(first?.builtMm[1]).toBeCloseTo(25.4 * 10.25, 6);
  expect(first?.builtByMm).toBeNull();
});

describe('saw cuts', () => {
  const tube = { material: '304 stainless', odMm: 44.45, wallMm: 1.65 };
  const placed = (id: string, pieceId: string, headerName: string | null) => ({
    id,
    piece: straight(pieceId, 10),
    headerName,
    primaryName: '1',
    pieceNumber: 1,
  });
  /** Two pieces off a length of 1 m, each with one cut, and what is left kept. */
  const planOf = (pieces: KeptPlan['pieces']): KeptPlan => ({
    pieces,
    stock: [],
    problem: {
      pieces: pieces.map(({ id }) => ({ kind: 'straight', id, tube, lengthMm: 254 })),
      joints: [],
      stock: [{ kind: 'straight', id: 'row', tube, count: 1, cost: 1, isRemnant: false, lengthMm: 1000 }],
      saw: { kerfMm: 2, facingMm: 0, shortestRemnantMm: 50 },
    },
    plan: {
      opened: [
        {
          rowId: 'row',
          copy: 1,
          stretches: [
            { kind: 'piece', pieceId: pieces[0]?.id ?? '', fromMm: 0, toMm: 254 },
            { kind: 'cut', fromMm: 254, toMm: 256 },
            { kind: 'piece', pieceId: pieces[1]?.id ?? '', fromMm: 256, toMm: 510 },
            { kind: 'cut', fromMm: 510, toMm: 512 },
            { kind: 'remnant', fromMm: 512, toMm: 1000 },
          ],
        },
      ],
      short: [],
      goals: { shortage: 0, cost: 1, welds: 0, lost: 400 },
      bounds: [],
      ended: 'searched',
    },
  });
  const cutsOf = (of: Header, plan: KeptPlan) =>
    compareHeaders({ header: of, plans: [plan] }, { header: of, plans: [] }).figures.find(
      ({ name }) => name === 'Saw cuts, by cut plans',
    )?.values;

  test('are those that freed a piece of the header, and not those for another on the same stock', () => {
    const both = planOf([placed('One:a', 'a', null), placed('One:b', 'b', null)]);
    expect(cutsOf(ONE, both)).toEqual([2, null]);
    const shared = planOf([placed('One:a', 'a', 'One'), placed('Two:a', 'a', 'Two')]);
    expect(cutsOf(ONE, shared)).toEqual([1, null]);
  });

  test('are found again in a header that has another id since', () => {
    const both = planOf([placed('One:a', 'a', null), placed('One:b', 'b', null)]);
    expect(cutsOf({ ...ONE, id: 'elsewhere' }, both)).toEqual([2, null]);
  });
});

test('a header beside itself differs in nothing', () => {
  const demo = demoHeader('demo');
  const { figures, primaries } = compare(demo, demo);
  for (const one of figures) {
    if (one.kind === 'words') expect(one.isSame).toBe(true);
    else expect([0, null]).toContain(one.kind === 'length' ? one.byMm : one.by);
  }
  for (const { byMm } of primaries) expect(byMm).toBe(0);
});
