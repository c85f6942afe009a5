/** Names that are hard to cut: at the limit, with flags, families, accents and marks of direction where the cut falls. */

import fc from 'fast-check';
import { NAME_LIMIT, nameSchema } from '../../core/header/schema.ts';

/** Single characters to a reader, two to eleven code units to a program. */
const LARGE = [
  '\u{1f527}',
  '\u{1f1f3}\u{1f1f4}',
  '\u{1f468}\u200d\u{1f469}\u200d\u{1f467}\u200d\u{1f466}',
  '\u{1f44d}\u{1f3fd}',
  '1\ufe0f\u20e3',
  'e\u0323\u0302\u0301',
  'q\u0307\u0323',
  '\u0915\u094d\u0937\u093f',
  '\u1100\u1161\u11a8',
  '\u{10400}',
  '\u05e9\u05c1',
] as const;
/** Allowed in a name, and seen by nobody; the last turn the direction of what follows. */
const UNSEEN = ['\u200d', '\ufe0f', '\u00a0', '\u200b', '\u200e', '\u200f', '\u061c'] as const;
/** Not allowed in a name. */
const FORBIDDEN = ['\ud83d', '\udd27', '\u202e', '\u2067', '\u0000', '\n', '\t', '\u001b'] as const;

const characters = (...more: readonly string[]) =>
  fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom('a', 'Z', '7', ' ', '\u0301') },
    { weight: 4, arbitrary: fc.constantFrom(...LARGE) },
    { weight: 1, arbitrary: fc.constantFrom(...UNSEEN, ...more) },
  );

/** Cut by code units to the limit or just below, as a hand that knows nothing of characters would. */
const atTheLimit = fc
  .tuple(fc.array(characters(), { minLength: 1, maxLength: 40 }), fc.constantFrom(119, 120, 61, 60, 59, 12))
  .map(([parts, length]) =>
    parts
      .join('')
      .repeat(Math.ceil(120 / parts.join('').length))
      .slice(0, length),
  );

/** The mark for half a character is left out, so that where it turns up a name was cut in two. */
const taken = (text: string) => nameSchema.safeParse(text).success && !text.includes('\ufffd');

/** Names that the schema takes, in the form that it gives them. */
export const hostileNameArbitrary: fc.Arbitrary<string> = fc
  .oneof(
    { weight: 6, arbitrary: atTheLimit },
    { weight: 1, arbitrary: fc.constantFrom(...LARGE).map((one) => one.repeat(Math.floor(NAME_LIMIT / one.length))) },
    { weight: 1, arbitrary: fc.constant(`Z${'\u0335'.repeat(119)}`) },
    { weight: 1, arbitrary: fc.constant('\u0301'.repeat(120)) },
    { weight: 1, arbitrary: fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 }) },
  )
  .filter(taken)
  .map((text) => nameSchema.parse(text));

/** Any text, most of it no name. */
export const hostileTextArbitrary: fc.Arbitrary<string> = fc.oneof(
  fc.array(characters(...FORBIDDEN), { maxLength: 200 }).map((parts) => parts.join('')),
  fc.array(fc.constantFrom(...FORBIDDEN, ...UNSEEN), { maxLength: 130 }).map((parts) => parts.join('')),
  fc.string({ unit: 'binary', maxLength: 300 }),
);
