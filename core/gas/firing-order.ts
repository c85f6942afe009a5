/** Firing orders: the common ones, and any other as it is typed. */

import { CYLINDERS_LIMIT } from '../header/as-built-schema.ts';
import type { HeaderProblem } from '../header/header-problem.ts';
import { quoted } from '../header/schema-problems.ts';
import { failure, type Result, success } from '../result.ts';

export interface NamedOrder {
  readonly name: string;
  readonly order: readonly number[];
  /** Crank degrees from each to the next; not there: even. */
  readonly intervalsDeg?: readonly number[];
}

/**
 * Cylinders numbered from the front, of a V engine as the name says. Bosch Automotive Handbook, firing sequence (from memory);
 * general facts. Those that fire evenly come first; the intervals of the others are held to published ones and to the crank's
 * own geometry in tests/references/firing.test.ts.
 */
export const COMMON_ORDERS: readonly NamedOrder[] = [
  { name: 'One cylinder', order: [1] },
  { name: 'Twin', order: [1, 2] },
  { name: 'Three in line', order: [1, 3, 2] },
  { name: 'Four in line', order: [1, 3, 4, 2] },
  { name: 'Four in line, the other way', order: [1, 2, 4, 3] },
  { name: 'Flat four', order: [1, 3, 2, 4] },
  { name: 'Five in line', order: [1, 2, 4, 5, 3] },
  { name: 'Six in line', order: [1, 5, 3, 6, 2, 4] },
  { name: 'V6, 1-2-3-4-5-6', order: [1, 2, 3, 4, 5, 6] },
  { name: 'Flat six', order: [1, 6, 2, 4, 3, 5] },
  { name: 'V8 cross-plane, odd numbers one bank', order: [1, 8, 4, 3, 6, 5, 7, 2] },
  { name: 'Twin in line, 180° crank', order: [1, 2], intervalsDeg: [180, 540] },
  { name: 'Twin in line, 270° crank, or V-twin, 90°', order: [1, 2], intervalsDeg: [270, 450] },
  { name: 'V-twin, 60°, one crankpin', order: [1, 2], intervalsDeg: [300, 420] },
  { name: 'V-twin, 45°, one crankpin', order: [1, 2], intervalsDeg: [315, 405] },
  { name: 'Four in line, cross-plane crank', order: [1, 3, 2, 4], intervalsDeg: [270, 180, 90, 180] },
  {
    name: 'V6, 90°, three crankpins, odd numbers one bank',
    order: [1, 6, 5, 4, 3, 2],
    intervalsDeg: [150, 90, 150, 90, 150, 90],
  },
];

export function formatFiringOrder(order: readonly number[]): string {
  return order.join('-');
}

/**
 * Reads an order such as `1-3-4-2`, `1 3 4 2` or `1,3,4,2`. Every cylinder from 1 to their number must be there once: what is
 * missing or twice is said. Cylinders that this header has no primary for belong to it too.
 */
export function parseFiringOrder(text: string): Result<readonly number[], HeaderProblem> {
  const parts = text
    .trim()
    .split(/[\s,;–—-]+/u)
    .filter((part) => part !== '');
  const order = parts.map(Number);
  const fault = orderFault(text, parts, order);
  if (fault === null) return success(order);
  return failure({ kind: 'invalidValue', path: ['engine', 'firingOrder'], ...fault });
}

function orderFault(
  text: string,
  parts: readonly string[],
  order: readonly number[],
): { readonly expected: string; readonly found: string } | null {
  const expected = 'every cylinder once, as in 1-3-4-2';
  if (parts.length === 0) return { expected, found: 'nothing' };
  if (parts.length > CYLINDERS_LIMIT) return { expected: `at most ${CYLINDERS_LIMIT} cylinders`, found: quoted(text) };
  const unread = parts.find((part) => !/^\d{1,3}$/.test(part));
  if (unread !== undefined) return { expected, found: quoted(unread) };
  const twice = order.find((cylinder, index) => order.indexOf(cylinder) !== index);
  if (twice !== undefined) return { expected, found: `cylinder ${twice} twice` };
  const missing = order.findIndex((_, index) => !order.includes(index + 1));
  if (missing === -1) return null;
  return { expected: `cylinders 1 to ${order.length}`, found: `no cylinder ${missing + 1}` };
}

/** The cylinder that a primary belongs to: the one whole number in its name, if the engine has it; null otherwise. */
export function cylinderOf(name: string, order: readonly number[]): number | null {
  const [number, ...others] = name.match(/\d+/g) ?? [];
  const cylinder = Number(number ?? Number.NaN);
  return others.length === 0 && order.includes(cylinder) ? cylinder : null;
}
