/** Sixty and more situations at the bench: the first move is the one that a fabricator would pick. */

import { describe, expect, it } from 'vitest';
import type { Header, Obstacle } from '../../../core/header/header.ts';
import type { Move, MoveChange } from '../../../core/moves/move.ts';
import type { MoveOptions } from '../../../core/moves/question.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { millimetres, mmOf } from '../../../core/units/length.ts';
import { ALONG_X, primaryOf } from '../path/made-primaries.ts';
import { faultsOf } from './check-move.ts';
import { FULL_SHELF } from './disturb.ts';
import { fittedHeader, lengthOf } from './made-headers.ts';
import { MORE_SITUATIONS } from './more-situations.ts';
import { piecesInShort } from './pieces-in-short.ts';
import { SITUATIONS, type Situation } from './situations.ts';

const own = (pieces: string) => primaryOf(piecesInShort(pieces, { unit: 'mm' }), { id: 'own', port: ALONG_X });

/** Square to x, its side with the tubes towards the port. */
function wallAt(xMm: number): Obstacle {
  const at = { x: millimetres(xMm), y: millimetres(0), z: millimetres(0) };
  return { kind: 'plane', id: 'wall', name: 'wall', at, normal: { x: -1, y: 0, z: 0 } };
}

function headerOf({ pieces, fitted, wantedMm = 0, slipMm = 0, wallAtMm }: Situation): Header {
  const right = own(fitted ?? pieces);
  const header = fittedHeader(own(pieces), { targetMm: lengthOf(right) + wantedMm, fitted: right, slipMm });
  return wallAtMm === undefined ? header : { ...header, obstacles: [wallAt(wallAtMm)] };
}

function inShort(change: MoveChange): string {
  switch (change.kind) {
    case 'length':
      return `${mmOf(change.to) > mmOf(change.from) ? '+' : '-'}${change.pieceIndex + 1}`;
    case 'takeOut':
      return `x${change.pieceIndex + 1}`;
    case 'letIn':
      return `n${change.joint + 1}`;
    case 'clocking':
      return `c${change.pieceIndex + 1}`;
    case 'angle':
      return `a${change.pieceIndex + 1}`;
    case 'swap':
      return `s${change.pieceIndex + 1}`;
    case 'pies':
      return `p${change.pieceIndex + 1}-${change.fromPies - change.toPies}`;
    case 'bendOut':
      return `out${change.pieceIndex + 1}`;
    case 'bendIn':
      return `in${change.joint + 1}`;
    case 'bendPair':
      return `pair${change.joint + 1}`;
    case 'kick':
      return `kick${change.pieceIndex + 1}`;
  }
}

function shelfOf({ hasShelf, remnantMm }: Situation): Pick<MoveOptions, 'stock'> {
  if (remnantMm === undefined) return hasShelf === true ? { stock: FULL_SHELF } : {};
  const length = millimetres(remnantMm);
  return { stock: FULL_SHELF.map((item) => (item.kind === 'straight' ? { ...item, length } : item)) };
}

const picked = ({ changes }: Move) => changes.map(inShort).join(' ');

describe('a fabricator would pick', () => {
  it.each([...SITUATIONS, ...MORE_SITUATIONS].map((situation) => [situation.name, situation] as const))(
    '%s',
    (_, situation) => {
      const header = headerOf(situation);
      const options = { ...situation.options, ...shelfOf(situation) };
      const outcome = suggestMoves(header, 'own', options);
      const first = outcome.kind === 'none' ? `none ${outcome.reason.kind}` : outcome.moves.slice(0, 1).map(picked)[0];
      expect(first, situation.why).toBe(situation.pick);
      if (outcome.kind === 'found')
        expect(outcome.moves.flatMap((move) => faultsOf(header, move, options))).toEqual([]);
    },
  );

  it('in sixty situations at least', () => {
    expect(SITUATIONS.length + MORE_SITUATIONS.length).toBeGreaterThanOrEqual(60);
  });
});
