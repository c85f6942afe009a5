/** Firing orders as they are typed. */

import { describe, expect, it, test } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import { COMMON_ORDERS, cylinderOf, formatFiringOrder, parseFiringOrder } from '../../../core/gas/firing-order.ts';

describe('a typed order', () => {
  test.each(['1-3-4-2', '1 3 4 2', '1,3,4,2', ' 1 – 3 – 4 – 2 '])('%j is read', (text) => {
    expect(parseFiringOrder(text)).toEqual({ ok: true, value: [1, 3, 4, 2] });
  });

  test.each([
    ['', 'nothing'],
    ['1-3-4', 'no cylinder 2'],
    ['1-3-3-2', 'cylinder 3 twice'],
    ['1-3-four-2', '"four"'],
    ['0-1-2', 'no cylinder 3'],
    ['1.5-2', '"1.5"'],
  ])('%j is refused: %s', (text, found) => {
    const read = parseFiringOrder(text);
    if (read.ok) throw new Error('it was taken');
    const [problem] = read.problems;
    if (problem === undefined) throw new Error('a problem');
    expect(describeProblem(problem)).toContain(found);
  });

  it('is read back as it is shown', () => {
    for (const { order } of COMMON_ORDERS)
      expect(parseFiringOrder(formatFiringOrder(order))).toEqual({ ok: true, value: order });
  });
});

it('the cylinder of a primary is the one number in its name, if the engine has it', () => {
  const order = [1, 3, 4, 2];
  expect(['3', 'Cylinder 3', 'cyl. 3 left', '7', 'left', '3 of 4'].map((name) => cylinderOf(name, order))).toEqual([
    3,
    3,
    3,
    null,
    null,
    null,
  ]);
});
