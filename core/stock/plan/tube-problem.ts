/** A cut problem taken apart by tube: what is of another material, OD or wall can neither help nor hinder. */

import { comparable, isSameSize } from '../shelf-match.ts';
import type { CutJoint, CutPiece, CutProblem, CutTube, SawSettings, StockRow } from './cut-problem.ts';

export type BendPiece = Extract<CutPiece, { kind: 'bend' }>;
export type StraightPiece = Extract<CutPiece, { kind: 'straight' }>;
export type BendRow = Extract<StockRow, { kind: 'bend' }>;
export type StraightRow = Extract<StockRow, { kind: 'straight' }>;

/** All pieces and all stock of one tube; joints only between pieces that are here. */
export interface TubeProblem {
  readonly tube: CutTube;
  readonly bends: readonly BendPiece[];
  readonly straights: readonly StraightPiece[];
  readonly joints: readonly CutJoint[];
  readonly bendRows: readonly BendRow[];
  readonly straightRows: readonly StraightRow[];
  readonly saw: SawSettings;
}

/** Sizes within 0.01 mm; materials without regard to case and outer space. */
export function isSameTube(a: CutTube, b: CutTube): boolean {
  return (
    comparable(a.material) === comparable(b.material) && isSameSize(a.odMm, b.odMm) && isSameSize(a.wallMm, b.wallMm)
  );
}

/** Each tube once, as the first piece of it has it. */
function tubesOf(pieces: readonly CutPiece[]): readonly CutTube[] {
  const tubes: CutTube[] = [];
  for (const { tube } of pieces) if (!tubes.some((known) => isSameTube(known, tube))) tubes.push(tube);
  return tubes;
}

/** Stock that a piece could come out of: there is some, and it is of the tube of one of them. */
export function stockOfPieces({ pieces, stock }: Pick<CutProblem, 'pieces' | 'stock'>): readonly StockRow[] {
  const tubes = tubesOf(pieces);
  return stock.filter(({ count, tube }) => count > 0 && tubes.some((known) => isSameTube(known, tube)));
}

/** Stock without a count, and stock of a tube that no piece is of, is left out. A tube is that of its first piece. */
export function tubeProblems({ pieces, joints, stock, saw }: CutProblem): readonly TubeProblem[] {
  const tubes = tubesOf(pieces);
  const tubeOf = (one: CutTube) => tubes.find((known) => isSameTube(known, one));
  return tubes.map((tube) => {
    const own = pieces.filter((piece) => tubeOf(piece.tube) === tube);
    const bends = own.filter((piece) => piece.kind === 'bend');
    const straights = own.filter((piece) => piece.kind === 'straight');
    const rows = stock.filter((row) => row.count > 0 && tubeOf(row.tube) === tube);
    return {
      tube,
      bends,
      straights,
      joints: joints.filter(
        ({ straightId, bendId }) =>
          straights.some(({ id }) => id === straightId) && bends.some(({ id }) => id === bendId),
      ),
      bendRows: rows.filter((row) => row.kind === 'bend'),
      straightRows: rows.filter((row) => row.kind === 'straight'),
      saw,
    };
  });
}
