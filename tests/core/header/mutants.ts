/** Broken versions of good files, made at random but the same for the same seed. */

import { randomBelow } from '../../trust/seeded-random.ts';

type Random = () => number;

const pick = <Item>(random: Random, items: readonly Item[]): Item => items[randomBelow(random, items.length)] as Item;

/** Values that have broken programs before, as JSON: each use makes its own, so that none is ever part of itself. */
const NASTY: readonly string[] = [
  'null',
  'true',
  '""',
  '"x"',
  '"90"',
  '"NaN"',
  '"__proto__"',
  '"constructor"',
  '"\\u202e"',
  '"\\u0000"',
  '"\\ud800"',
  JSON.stringify('x'.repeat(3000)),
  '0',
  '-0',
  '-1',
  '0.5',
  '361',
  '1e9',
  '-1e9',
  '1e308',
  '5e-324',
  '9007199254740994',
  '[]',
  '{}',
  '[[[[]]]]',
  '{"value":-1,"unit":"in"}',
  '{"value":1,"unit":"furlong"}',
  '{"kind":"straight"}',
  '{"__proto__":{"polluted":1}}',
  '{"constructor":{"prototype":{"polluted":1}}}',
];

const nasty = (random: Random): unknown => JSON.parse(pick(random, NASTY));

type Box = Record<string | number, unknown>;

/** Every group and list inside a value, itself included. */
function boxesIn(value: unknown): Box[] {
  if (typeof value !== 'object' || value === null) return [];
  return [value as Box, ...Object.values(value).flatMap(boxesIn)];
}

/** Changes one thing at a random place: another value, a lost field, an added field, a copied one. */
function mutateValue(root: unknown, random: Random): void {
  const boxes = boxesIn(root);
  const box = pick(random, boxes);
  const keys = Object.keys(box);
  const key = keys.length === 0 ? 'extra' : pick(random, keys);
  switch (randomBelow(random, 5)) {
    case 0:
      delete box[key];
      break;
    case 1:
      Object.defineProperty(box, pick(random, ['extra', '__proto__', 'constructor', 'toString', '0']), {
        value: nasty(random),
        enumerable: true,
        configurable: true,
        writable: true,
      });
      break;
    case 2:
      box[key] = structuredClone(pick(random, boxes));
      break;
    default:
      box[key] = nasty(random);
  }
}

const SPLINTERS: readonly string[] = [
  '"',
  '\\',
  '{',
  '}',
  '[',
  ']',
  ',',
  ':',
  '-',
  '1e999',
  'NaN',
  '\u0000',
  '\ufeff',
  '\r\n',
  '\t',
  ';',
  "'",
  '=',
  '\u202e',
  '\ud800',
  '//',
  '0x',
  '[[[[[[[[',
  '9'.repeat(400),
];

/** Text with a few cuts, doublings and splinters. */
export function mutantText(text: string, random: Random): string {
  let mutant = text;
  for (let rounds = 1 + randomBelow(random, 3); rounds > 0; rounds -= 1) {
    const from = randomBelow(random, mutant.length + 1);
    const to = Math.min(mutant.length, from + randomBelow(random, 12));
    switch (randomBelow(random, 4)) {
      case 0:
        mutant = mutant.slice(0, from) + mutant.slice(to);
        break;
      case 1:
        mutant = mutant.slice(0, to) + mutant.slice(from);
        break;
      case 2:
        mutant = randomBelow(random, 8) === 0 ? mutant.slice(0, from) : mutant;
        break;
      default:
        mutant = mutant.slice(0, from) + pick(random, SPLINTERS) + mutant.slice(to);
    }
  }
  return mutant;
}

/** JSON text with one to three things changed, by its structure two times out of three. */
export function mutantJson(text: string, random: Random): string {
  if (randomBelow(random, 3) === 0) return mutantText(text, random);
  const root: unknown = JSON.parse(text);
  for (let rounds = 1 + randomBelow(random, 3); rounds > 0; rounds -= 1) mutateValue(root, random);
  return JSON.stringify(root);
}

const CELLS: readonly string[] = [
  '',
  ' ',
  '2',
  '2,5',
  '-3',
  '1e999',
  'NaN',
  '=1+1',
  '3 5/',
  '9'.repeat(70),
  '\u202e',
  '\u0000',
  '__proto__',
  'constructor',
  'bend',
  'pie-cut',
  'primary',
  'length',
  '"',
  '\ud800',
  'x'.repeat(2001),
  '1000000000',
  '0',
  '360',
  '1/0',
];

/** Rows with one to four cells, rows or columns changed. */
export function mutantRows(rows: readonly (readonly string[])[], random: Random): readonly (readonly string[])[] {
  const mutant = rows.map((row) => [...row]);
  for (let rounds = 1 + randomBelow(random, 4); rounds > 0; rounds -= 1) {
    const row = pick(random, mutant.length > 0 ? mutant : [[]]);
    const at = randomBelow(random, row.length + 1);
    switch (randomBelow(random, 6)) {
      case 0:
        mutant.splice(randomBelow(random, mutant.length + 1), 1);
        break;
      case 1:
        mutant.splice(randomBelow(random, mutant.length + 1), 0, [...row]);
        break;
      case 2:
        row.splice(at, 0, pick(random, CELLS));
        break;
      case 3:
        row.splice(at, 1);
        break;
      default:
        row[at] = pick(random, CELLS);
    }
  }
  return mutant;
}

const TYPED: readonly string[] = [
  '0',
  '1',
  '2',
  '9',
  '64',
  '999999',
  ' ',
  '\u2009',
  '/',
  '\u2044',
  '-',
  '\u2212',
  '+',
  '.',
  ',',
  "'",
  '"',
  '\u2032',
  '\u2033',
  'in',
  'mm',
  'ft',
  'cm',
  '\u00bd',
  'b',
  'p',
  'x',
  'r',
  ';',
  '=',
  '\u00b0',
  'deg',
  'e',
  'E5',
  'Infinity',
  'NaN',
  '\u0661',
  '\uff11',
  '\u202e',
  '\ud800',
  '\u0000',
  '\n',
];

/** Something that could have been typed into a field, mostly by a cat. */
export function typedText(random: Random): string {
  return Array.from({ length: randomBelow(random, 12) }, () => pick(random, TYPED)).join('');
}
