/** What the shelf can supply. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Tube } from '../../../core/header/header.ts';
import { clrsOnShelf, otherMaterials, shelfMatch } from '../../../core/stock/shelf-match.ts';
import type { StockBend, StockItem } from '../../../core/stock/stock-item.ts';
import { inches, millimetres } from '../../../core/units/length.ts';

const TUBE: Tube = { material: '304', od: inches(1.75), wall: inches(0.065) };

function stockBend(fields: Partial<StockBend>): StockBend {
  const size = { ...TUBE, clr: inches(3), angleDeg: 180, legs: [inches(4), inches(4)] as const };
  return { kind: 'bend', id: 'b', count: 2, note: '', ...size, ...fields };
}

const WANTED = { clr: inches(3), angleDeg: 90 };

describe('a stock bend supplies a bend', () => {
  test('of the same tube and CLR with degrees to spare: quarter turns come out of U-bends (common practice)', () => {
    expect(shelfMatch([stockBend({})], WANTED, TUBE)).toBe('onShelf');
    expect(shelfMatch([stockBend({ angleDeg: 90 })], WANTED, TUBE)).toBe('onShelf');
    expect(shelfMatch([stockBend({ angleDeg: 90 })], { ...WANTED, angleDeg: 4 * 22.5 }, TUBE)).toBe('onShelf');
  });

  test('not when each has too few degrees', () => {
    const stock = [stockBend({ angleDeg: 89.99 }), stockBend({ angleDeg: 45 })];
    expect(shelfMatch(stock, WANTED, TUBE)).toBe('tooFewDegrees');
  });

  test('not when none is left, and a longer one that is gone does not count', () => {
    expect(shelfMatch([stockBend({ count: 0 })], WANTED, TUBE)).toBe('noneLeft');
    expect(shelfMatch([stockBend({ count: 0 }), stockBend({ angleDeg: 45 })], WANTED, TUBE)).toBe('tooFewDegrees');
  });

  test.each<[string, Partial<StockBend>]>([
    ['another OD', { od: inches(1.625) }],
    ['another wall', { wall: inches(0.049) }],
    ['another material', { material: '321' }],
    ['another CLR', { clr: inches(2.5) }],
    ['a CLR 0.011 mm off', { clr: millimetres(76.211) }],
    ['an OD 0.011 mm off', { od: millimetres(44.439) }],
  ])('not of %s', (_name, fields) => {
    expect(shelfMatch([stockBend(fields)], WANTED, TUBE)).toBe('none');
  });

  test('sizes are compared as lengths, to 0.01 mm, and materials as words', () => {
    const metric = { material: ' 304 ', od: millimetres(44.45), wall: millimetres(1.65), clr: millimetres(76.2) };
    expect(shelfMatch([stockBend(metric)], WANTED, TUBE)).toBe('onShelf');
    expect(shelfMatch([stockBend({ clr: millimetres(76.21) })], WANTED, TUBE)).toBe('onShelf');
    expect(shelfMatch([stockBend({ material: 'MILD Steel' })], WANTED, { ...TUBE, material: 'mild steel' })).toBe(
      'onShelf',
    );
  });

  test('straights and an empty shelf supply none', () => {
    const bar: StockItem = { kind: 'straight', id: 's', ...TUBE, length: inches(48), count: 9, note: '' };
    expect(shelfMatch([bar], WANTED, TUBE)).toBe('none');
    expect(shelfMatch([], WANTED, TUBE)).toBe('none');
  });

  test('more stock never makes a bend harder to get', () => {
    const rank = { none: 0, noneLeft: 1, tooFewDegrees: 2, onShelf: 3 };
    const item = fc.record({
      od: fc.constantFrom(inches(1.75), inches(2)),
      clr: fc.constantFrom(inches(3), inches(2.5), millimetres(76.2)),
      angleDeg: fc.integer({ min: 1, max: 180 }),
      count: fc.integer({ min: 0, max: 3 }),
    });
    fc.assert(
      fc.property(fc.array(item.map(stockBend), { maxLength: 8 }), item.map(stockBend), (stock, more) => {
        expect(rank[shelfMatch([...stock, more], WANTED, TUBE)]).toBeGreaterThanOrEqual(
          rank[shelfMatch(stock, WANTED, TUBE)],
        );
      }),
      { numRuns: 2000 },
    );
  });
});

describe('the CLRs that the shelf offers', () => {
  test('are those of bends on hand of this tube, each once as first typed, tightest first', () => {
    const stock = [
      stockBend({ clr: inches(3) }),
      stockBend({ clr: millimetres(76.2), angleDeg: 45 }),
      stockBend({ clr: millimetres(63.5) }),
      stockBend({ clr: inches(2.5) }),
      stockBend({ clr: inches(2), count: 0 }),
      stockBend({ clr: inches(4), wall: inches(0.049) }),
      stockBend({ clr: inches(6), material: '321' }),
    ];
    expect(clrsOnShelf(stock, TUBE)).toEqual([millimetres(63.5), inches(3)]);
    expect(clrsOnShelf([], TUBE)).toEqual([]);
  });

  test('each has a bend that the shelf can supply', () => {
    const stock = [stockBend({ clr: inches(3), angleDeg: 15 }), stockBend({ clr: inches(2.5), angleDeg: 15 })];
    for (const clr of clrsOnShelf(stock, TUBE)) {
      expect(shelfMatch(stock, { clr, angleDeg: 15 }, TUBE)).toBe('onShelf');
    }
  });
});

describe('other names of the same size of tube', () => {
  test('are told with their rows, most first, and case and outer space make no other name', () => {
    const stock = [
      stockBend({ material: '304 stainless' }),
      stockBend({ material: ' 304 Stainless' }),
      stockBend({ material: 'mild steel' }),
      stockBend({}),
      stockBend({ material: '321', od: inches(2) }),
      stockBend({ material: '321', wall: inches(0.049) }),
    ];
    expect(otherMaterials(stock, TUBE)).toEqual([
      { material: '304 stainless', rows: 2 },
      { material: 'mild steel', rows: 1 },
    ]);
    expect(otherMaterials([stockBend({ material: '304 ' })], TUBE)).toEqual([]);
  });
});
