/** Cut problems of the size of a real header: primaries of straights and bends in turn, and a shelf of many rows. */

import type { CutJoint, CutPiece, CutProblem, StockRow } from '../../../../core/stock/plan/cut-problem.ts';
import { seededRandom } from '../../path/made-primaries.ts';
import { bend, SAW, stick, stockBend, straight } from './made-problems.ts';

const ANGLES_DEG = [15, 22.5, 30, 37.5, 45, 52.5, 60, 75, 90] as const;
const CLRS_MM = [50.8, 63.5, 76.2] as const;
const LEGS_MM = [0, 25.4, 50.8, 76.2, 101.6] as const;
const SIXTEENTH_MM = 25.4 / 16;

/** @param pieces how many in all, shared out over the primaries */
export function headerProblem(seed: number, { primaries, pieces }: { primaries: number; pieces: number }): CutProblem {
  const random = seededRandom(seed * 9973);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const chosen = <One>(all: readonly One[], one = all[whole(0, all.length - 1)]): One => {
    if (one === undefined) throw new Error('nothing to choose from');
    return one;
  };
  const cut: CutPiece[] = [];
  const joints: CutJoint[] = [];
  for (let primary = 0; primary < primaries; primary += 1) {
    const count = Math.floor((pieces * (primary + 1)) / primaries) - Math.floor((pieces * primary) / primaries);
    const startsStraight = random() < 0.5;
    for (let at = 0; at < count; at += 1) {
      const id = `${primary}-${at}`;
      const isStraight = (at % 2 === 0) === startsStraight;
      const piece = isStraight
        ? straight(id, whole(16, 90) * SIXTEENTH_MM)
        : bend(id, chosen(ANGLES_DEG), chosen(CLRS_MM));
      const before = at > 0 ? cut.at(-1) : undefined;
      if (before !== undefined) {
        joints.push(isStraight ? { straightId: id, bendId: before.id } : { straightId: before.id, bendId: id });
      }
      cut.push(piece);
    }
  }
  const stock = Array.from({ length: 30 }, (_, row): StockRow => {
    const more = { count: whole(1, 3), cost: whole(4, 40) / 2, isRemnant: random() < 0.2 };
    if (row % 4 === 0) return stick(`row${row}`, whole(6, 60) * 25.4, more);
    const legsMm = [chosen(LEGS_MM), chosen(LEGS_MM)] as const;
    return stockBend(`row${row}`, { angleDeg: chosen([45, 90, 90, 180]), legsMm, clrMm: chosen(CLRS_MM) }, more);
  });
  return { pieces: cut, joints, stock, saw: SAW };
}
