/** The shop's prices as they are typed, kept and handed to the search. */

import { describe, expect, test } from 'vitest';
import {
  FIRST_PRICES,
  type MovePrices,
  priceText,
  readPrice,
  shopPrices,
  tubePriceFor,
} from '../../../renderer/moves/move-prices.ts';
import { askedOptions, FIRST_SETTINGS } from '../../../renderer/moves/move-settings.ts';

const PRICES: MovePrices = { rankBy: 'minutes', joint: 20, cut: 5, bend: 10, tube: 3, tubePer: 'ft', ordered: 45 };

describe('the prices of a shop', () => {
  test('are asked for only where they decide', () => {
    expect(shopPrices(FIRST_PRICES)).toBeNull();
    expect(shopPrices({ ...PRICES, rankBy: 'order' })).toBeNull();
    expect(askedOptions(FIRST_SETTINGS, null).prices).toBeUndefined();
    expect(askedOptions(FIRST_SETTINGS, null, PRICES).prices).toMatchObject({
      joint: 20,
      cut: 5,
      bend: 10,
      ordered: 45,
    });
  });

  test('of tube are for a metre, whatever length they were typed for (a foot is 0.3048 m by definition)', () => {
    expect(shopPrices(PRICES)?.tubeMetre).toBeCloseTo(3 / 0.3048, 4);
    expect(shopPrices({ ...PRICES, tube: 9, tubePer: 'm' })?.tubeMetre).toBe(9);
    expect(tubePriceFor({ ...PRICES, tube: 10, tubePer: 'm' }, 'ft')).toBeCloseTo(3.048, 5);
  });

  test.each([
    [75, 'minutes', '75 min'],
    [7.25, 'minutes', '7.3 min'],
    [0, 'minutes', '0 min'],
    [38.5, 'money', '38.50'],
  ] as const)('%s is shown as it is counted', (price, rankBy, text) => {
    expect(priceText(price, rankBy)).toBe(text);
  });

  test.each([
    ['15', 15],
    [' 7.5 ', 7.5],
    ['.5', 0.5],
    ['0', 0],
    ['1000000', 1e6],
    ['1000001', null],
    ['-3', null],
    ['1e3', null],
    ['', null],
    ['twelve', null],
  ])('typed as "%s"', (text, price) => {
    expect(readPrice(text)).toBe(price);
  });
});
