/** What the comparison of two banks says. */

import { expect, test } from 'vitest';
import { compareBanks, demoHeader, type Primary } from '../../../core/index.ts';
import { mirrorPiece } from '../../../core/path/banks/mirror.ts';
import { pairWords } from '../../../renderer/shape/banks/compare-banks-part.tsx';

const header = demoHeader('demo');
const style = header.settings.display;
const [one, two] = header.primaries as readonly [Primary, Primary];
const mirrored = (primary: Primary): Primary => ({
  ...primary,
  id: `m-${primary.id}`,
  name: `${primary.name}m`,
  pieces: primary.pieces.map(mirrorPiece),
});

function wordsOf(reference: readonly Primary[], other: readonly Primary[]): readonly string[] {
  const primaries = [...reference, ...other];
  return compareBanks(reference, other).map((pair) => pairWords(pair, { primaries }, style));
}

test('a mirrored bank differs in nothing, and a primary without partner is named', () => {
  expect(wordsOf([one, two], [mirrored(one)])).toEqual([
    '1m against Primary 1: nothing differs.',
    'Primary 2 has no partner in the other bank.',
  ]);
});

test('the one joint clocked 5 degrees wrong is named, and no other (common practice: compare joint by joint)', () => {
  const copy = mirrored(two);
  const wrong = {
    ...copy,
    pieces: copy.pieces.map((piece, index) =>
      index === 3 && piece.kind !== 'straight' ? { ...piece, clockingDeg: (piece.clockingDeg ?? 0) + 5 } : piece,
    ),
  };
  const [first, second] = wordsOf([one, two], [mirrored(one), wrong]);
  expect(first).toMatch(/nothing differs/);
  expect(second).toMatch(
    /^2m against Primary 2: piece 4: clocking \+5° \(explains it best\)\. One joint explains it\. Re-clock piece 4 by \u22125°: the primary then ends where Primary 2 would end/,
  );
});
