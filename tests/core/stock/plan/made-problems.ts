/** Cut problems for the tests: parts written short, and whole problems made at random from a seed. */

import type { CutJoint, CutPiece, CutProblem, SawSettings, StockRow } from '../../../../core/stock/plan/cut-problem.ts';
import { seededRandom } from '../../path/made-primaries.ts';

export const TUBE = { material: '321', odMm: 44.45, wallMm: 1.651 };
export const CLR_MM = 76.2;

export function straight(id: string, lengthMm: number): Extract<CutPiece, { kind: 'straight' }> {
  return { kind: 'straight', id, tube: TUBE, lengthMm };
}

export function bend(id: string, angleDeg: number, clrMm = CLR_MM): Extract<CutPiece, { kind: 'bend' }> {
  return { kind: 'bend', id, tube: TUBE, clrMm, angleDeg };
}

export function stick(id: string, lengthMm: number, more: Partial<StockRow> = {}): StockRow {
  return { ...{ id, tube: TUBE, count: 1, cost: 10, isRemnant: false }, ...more, kind: 'straight', lengthMm };
}

interface StockBend {
  readonly angleDeg: number;
  readonly legsMm: readonly [number, number];
  readonly clrMm?: number;
}

export function stockBend(id: string, shape: StockBend, more: Partial<StockRow> = {}): StockRow {
  return {
    ...{ id, tube: TUBE, count: 1, cost: 10, isRemnant: false },
    ...more,
    kind: 'bend',
    clrMm: CLR_MM,
    ...shape,
  };
}

export const SAW: SawSettings = { kerfMm: 2, facingMm: 0, shortestRemnantMm: 50 };

export function problemOf(parts: Partial<CutProblem>): CutProblem {
  return { pieces: [], joints: [], stock: [], saw: SAW, ...parts };
}

/** Up to 7 pieces and 5 rows with legs, kerf, facing and joints; sizes on coarse grids, so that exact fits are common. */
export function randomProblem(seed: number): CutProblem {
  const random = seededRandom(seed * 6101);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const chosen = <One>(...all: readonly [One, ...One[]]): One => all[whole(0, all.length - 1)] ?? all[0];
  const pieces = Array.from({ length: whole(1, 7) }, (_, at): CutPiece => {
    if (random() < 0.5) return straight(`s${at}`, chosen(30, 40, 48, 50, 98, 100, 150));
    return bend(`b${at}`, chosen(15, 22.5, 30, 45, 60, 90), chosen(CLR_MM, CLR_MM, 63.5));
  });
  const joints: CutJoint[] = pieces.flatMap((piece, at) => {
    const next = pieces[at + 1];
    if (next === undefined || next.kind === piece.kind || random() < 0.2) return [];
    return [
      piece.kind === 'straight' ? { straightId: piece.id, bendId: next.id } : { straightId: next.id, bendId: piece.id },
    ];
  });
  // So few items that every assignment of seven pieces can be tried.
  let left = pieces.length > 5 ? 5 : 6;
  const stock: StockRow[] = [];
  for (let row = whole(1, 5); row > 0 && left > 0; row -= 1) {
    const count = Math.min(left, whole(1, 2));
    left -= count;
    const more = { count, cost: chosen(3, 8, 8, 20), isRemnant: random() < 0.25 };
    if (random() < 0.4) stock.push(stick(`stick${row}`, chosen(100, 150, 202, 300, 500), more));
    else {
      const legsMm = [chosen(0, 30, 50, 52, 100), chosen(0, 30, 50, 102, 160)] as const;
      const clrMm = chosen(CLR_MM, CLR_MM, 63.5);
      stock.push(stockBend(`bend${row}`, { angleDeg: chosen(45, 90, 90, 180), legsMm, clrMm }, more));
    }
  }
  const saw = { kerfMm: chosen(0, 2, 3.2), facingMm: chosen(0, 0, 0.5), shortestRemnantMm: chosen(0, 25, 50) };
  return { pieces, joints, stock, saw };
}

/** A packing problem as bars of one length: whatever is left is kept, so that the count of bars alone decides. */
export function packingProblem(capacityMm: number, lengthsMm: readonly number[], kerfMm = 0): CutProblem {
  return problemOf({
    pieces: lengthsMm.map((lengthMm, at) => straight(`p${at}`, lengthMm)),
    stock: [stick('bar', capacityMm, { count: lengthsMm.length, cost: 1 })],
    saw: { kerfMm, facingMm: 0, shortestRemnantMm: 0 },
  });
}
