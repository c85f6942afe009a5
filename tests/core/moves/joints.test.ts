/** What a change asks of the joints, against every choice tried. */

import { describe, expect, it } from 'vitest';
import type { Piece, PieceState } from '../../../core/header/header.ts';
import { type JointDemand, jointStates, jointWork } from '../../../core/moves/problem/joints.ts';
import { keyParts } from '../../../core/moves/ranking/cost.ts';
import { CostTally, type Touch } from '../../../core/moves/ranking/cost-tally.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { type Act, jointsByHand } from './joints-by-hand.ts';
import { pick, shopPrimary } from './made-headers.ts';

const NO_BENDS = { isHeld: false, cuts: 0, adjusted: 0 };

function demandOf(pieces: readonly Piece[], act: Act): JointDemand {
  const { at } = act;
  switch (act.kind) {
    case 'shorter':
      return { kind: 'oneOf', first: at, last: at + 1 };
    case 'letIn':
      return { kind: 'joint', joint: at, more: act.pieces };
    case 'gone':
      return { kind: 'gone', pieceIndex: at };
    case 'reclocked': {
      const bends = pieces.slice(0, at).findLastIndex(({ kind }) => kind !== 'straight');
      return { kind: 'oneOf', first: bends + 1, last: at };
    }
    default:
      return { kind: 'piece', pieceIndex: at, more: 0 };
  }
}

function randomActs(pieces: readonly Piece[], random: () => number): readonly Act[] {
  const taken = new Set<string>();
  return Array.from({ length: 1 + Math.floor(random() * 5) }).flatMap((): readonly Act[] => {
    const at = Math.floor(random() * pieces.length);
    const isBend = pieces[at]?.kind !== 'straight';
    const kind = pick(
      random,
      isBend ? (['shorter', 'replaced', 'reclocked', 'letIn'] as const) : (['shorter', 'replaced', 'gone'] as const),
    );
    const slot = `${at} ${kind === 'reclocked' || kind === 'letIn' ? kind : ''}`;
    if (taken.has(slot)) return [];
    taken.add(slot);
    return [kind === 'letIn' ? { kind, at, pieces: 1 } : { kind, at }];
  });
}

describe('joints to be made', () => {
  it('are the fewest of all choices, in 2,000 random sets of changes, and the tally counts the same (seed 7)', () => {
    const random = seededRandom(7);
    for (let run = 0; run < 2000; run += 1) {
      const states: readonly PieceState[] = ['planned', 'cut', 'tacked', 'tacked', 'tacked'];
      const { pieces } = shopPrimary({ pieces: 2 + Math.floor(random() * 8), random, states });
      const acts = randomActs(pieces, random);
      const demands = acts.map((act) => demandOf(pieces, act));
      const joints = jointStates(pieces);
      const expected = jointsByHand(pieces, acts);
      expect(jointWork(demands, joints).made, JSON.stringify({ run, acts })).toBe(expected);
      const touches: readonly Touch[] = demands.map((demand) => ({ ...NO_BENDS, demand }));
      const tally = new CostTally(joints);
      expect(keyParts(tally.keyOf(touches)).joints).toBe(expected);
      // Last in, first out: nothing is left behind.
      expect(tally.key).toBe(0);
    }
  });

  it.each<[string, readonly Act[], number]>([
    ['a piece made shorter', [{ kind: 'shorter', at: 2 }], 1],
    ['a piece replaced by a longer one', [{ kind: 'replaced', at: 2 }], 2],
    ['a ring let in', [{ kind: 'letIn', at: 2, pieces: 1 }], 2],
    ['a bend re-clocked', [{ kind: 'reclocked', at: 3 }], 1],
    ['a piece taken out', [{ kind: 'gone', at: 2 }], 1],
    ['the last piece made shorter, at its loose end', [{ kind: 'shorter', at: 4 }], 0],
    [
      'two neighbours made shorter, at the joint that they share',
      [
        { kind: 'shorter', at: 2 },
        { kind: 'shorter', at: 3 },
      ],
      1,
    ],
  ])('are for %s what a shop counts', (_, acts, joints) => {
    const { pieces } = shopPrimary({ pieces: 5, random: seededRandom(1), withBareJoints: false });
    const made = jointWork(
      acts.map((act) => demandOf(pieces, act)),
      jointStates(pieces),
    ).made;
    expect([made, jointsByHand(pieces, acts)]).toEqual([joints, joints]);
  });
});
