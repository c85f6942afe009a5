/** The best target of a whole header against every target, each worked out to its end with nothing to beat. */

import { describe, expect, it } from 'vitest';
import type { Header, Primary, Target } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { suggestHeaderMoves } from '../../../core/moves/suggest-header-moves.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { targetsToTry } from '../../../core/moves/whole/targets-to-try.ts';
import { millimetres } from '../../../core/units/length.ts';
import { poseAt, seededRandom, straight, UP_Z } from '../path/made-primaries.ts';
import { fittedHeader, lengthOf, shopPrimary } from './made-headers.ts';

const { EVENRUN_LONG } = process.env;
const isLong = EVENRUN_LONG === '1';
const HEADERS = isLong ? 60 : 2;
/** Between targets that are nobody's length and nobody's edge. */
const EVERY_MM = isLong ? 1 : 6;

/** A last straight brings each to within so much of one length: shorter by more than a tenth it would be unfinished, and not asked for. */
const ABOUT_MM = 900;
const OFF_MM = 15;

/** Primaries side by side, each ending where it ends; the longest is the target. */
function headerOf(count: number, random: () => number): Header {
  const primaries = Array.from({ length: count }, (_, index): Primary => {
    const id = `cyl-${index + 1}`;
    const made = shopPrimary({ pieces: 6, random, states: ['tacked'], lockedPart: 0.15 });
    const port = poseAt({ x: 0, y: 120 * index, z: 0 }, { x: 1, y: 0, z: 0 }, UP_Z);
    const lastMm = Math.round(ABOUT_MM + OFF_MM * (2 * random() - 1) - lengthOf(made));
    const pieces = [...made.pieces, straight(Math.max(12, lastMm))];
    return {
      ...made,
      id,
      name: String(index + 1),
      port,
      pieces: pieces.map((piece, at) => ({ ...piece, id: `${id}-p${at}` })),
    };
  });
  const base = fittedHeader(primaries[0] as Primary, { targetMm: 100 });
  return { ...base, primaries, collectors: [], settings: { ...base.settings, target: { kind: 'longest' } } };
}

interface Price {
  readonly unsolved: number;
  readonly bends: number;
  readonly joints: number;
}

const NO_PRICE: Price = { unsolved: 0, bends: 0, joints: 0 };

/** Above zero where `a` takes more. */
function dearer(a: Price, b: Price): number {
  return a.unsolved - b.unsolved || a.bends - b.bends || a.joints - b.joints;
}

/** No primary hangs on another here, so each is asked for by itself. */
function priceAt(header: Header, target: Target | null): Price {
  const at = target === null ? header : { ...header, settings: { ...header.settings, target } };
  const out = matchHeader(at).primaries.filter(({ side }) => side !== 'inBand');
  let [unsolved, bends, joints] = [0, 0, 0];
  for (const { primaryId } of out) {
    const outcome = suggestMoves(at, primaryId, { maxMoves: 1 });
    const [move] = outcome.kind === 'found' ? outcome.moves : [];
    if (move === undefined) unsolved += 1;
    bends += move?.cost.bendsAdded ?? 0;
    joints += move?.cost.jointsMade ?? 0;
  }
  return { unsolved, bends, joints };
}

/** From below the shortest to above the longest, whatever the program would try. */
function targetsAllAlong(header: Header): readonly Target[] {
  const lengthsMm = matchHeader(header).primaries.map(({ lengthMm }) => lengthMm);
  const lowMm = Math.min(...lengthsMm) - 4;
  const count = Math.floor((Math.max(...lengthsMm) + 4 - lowMm) / EVERY_MM) + 1;
  return Array.from({ length: count }, (_, at) => ({ kind: 'typed', length: millimetres(lowMm + at * EVERY_MM) }));
}

it('is typed fine enough where another move ends just inside the edge of a band', () => {
  // One primary is in its band up to 889.5826 mm, and another has a move of one joint less from 889.5688 mm on.
  const outcome = suggestHeaderMoves(headerOf(4, seededRandom(25 * 92_821)));
  if (outcome.kind !== 'found') throw new Error(outcome.reason);
  const { unsolved, bendsAdded, jointsMade } = outcome.cheaper ?? outcome.asItIs;
  expect({ unsolved: unsolved.length, bendsAdded, jointsMade }).toEqual({ unsolved: 0, bendsAdded: 0, jointsMade: 4 });
});

it('is looked for between two targets where one move is cheap from below and another from above', () => {
  // Every target that is a length or the edge of a band takes 23 joints or more.
  const outcome = suggestHeaderMoves(headerOf(8, seededRandom(48 * 92_821)));
  if (outcome.kind !== 'found') throw new Error(outcome.reason);
  const { unsolved, bendsAdded, jointsMade } = outcome.cheaper ?? outcome.asItIs;
  expect({ unsolved: unsolved.length, bendsAdded, jointsMade }).toEqual({ unsolved: 0, bendsAdded: 0, jointsMade: 22 });
}, 120_000);

describe('the best target never takes more joints than the best of all targets', () => {
  for (let seed = 1; seed <= HEADERS; seed += 1) {
    const primaries = HEADERS > 2 && seed % 2 === 0 ? 8 : 4;
    it(
      `header ${seed} of ${HEADERS}, ${primaries} primaries`,
      () => {
        const header = headerOf(primaries, seededRandom(seed * 92_821));
        const outcome = suggestHeaderMoves(header);
        if (outcome.kind !== 'found') throw new Error(outcome.reason);
        const best = outcome.cheaper ?? outcome.asItIs;
        const targets = [...targetsToTry(header, matchHeader(header)), ...targetsAllAlong(header)];
        const prices = targets.map((target) => priceAt(header, target));
        const [least = NO_PRICE] = prices.sort(dearer);
        const { unsolved, bendsAdded: bends, jointsMade: joints } = best;
        const own = { unsolved: unsolved.length, bends, joints };
        expect(dearer(own, least), JSON.stringify({ own, least })).toBeLessThanOrEqual(0);
      },
      10 * 60_000,
    );
  }
});
