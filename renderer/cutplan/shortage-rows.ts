/** What a cut plan is short of, as a list to order by: like pieces counted together. */

import {
  type Header,
  type Piece,
  type PlacedPiece,
  pieceLength,
  type StockItem,
  type Tube,
  tubeOf,
} from '../../core/index.ts';
import { headerOfPiece, type PlacedPieces, pieceMark } from './list/plan-pieces.ts';

/**
 * One row a size, as a stock list has them, so that the file can be read into the shelf when the tube has come. A pie-cut
 * bend is asked for as the straight tube that it is cut from. The note says which pieces wait for it.
 * @param short ids of the plan's pieces; those that the header has not are left out
 */
export function shortageRows(
  headers: readonly Header[],
  pieces: PlacedPieces,
  short: readonly string[],
): readonly StockItem[] {
  const rows = new Map<string, StockItem>();
  for (const id of short) {
    const placed = pieces.get(id);
    const tube = placed && tubeOfPiece(headers, placed);
    if (placed === undefined || tube === undefined) continue;
    const wanted = wantedStock(tube, placed.piece);
    const size = JSON.stringify({ ...wanted, note: '' });
    const known = rows.get(size);
    const note = known === undefined ? `for ${pieceMark(placed)}` : `${known.note}, ${pieceMark(placed)}`;
    rows.set(size, { ...wanted, count: (known?.count ?? 0) + 1, note });
  }
  return [...rows.values()].map((row, at) => ({ ...row, id: `short-${at + 1}` }));
}

function tubeOfPiece(headers: readonly Header[], { id: plannedId, piece }: PlacedPiece): Tube | undefined {
  const header = headers.find(({ id }) => id === headerOfPiece(plannedId));
  const primary = header?.primaries.find(({ pieces }) => pieces.some(({ id }) => id === piece.id));
  return header && primary && tubeOf(header, primary);
}

function wantedStock({ material, od, wall }: Tube, piece: Piece): StockItem {
  const common = { id: 'short', material, od, wall, count: 1, note: '' };
  if (piece.kind !== 'bend') return { ...common, kind: 'straight', length: straightLength(piece) };
  const none = { value: 0, unit: piece.clr.unit };
  return { ...common, kind: 'bend', clr: piece.clr, angleDeg: piece.angleDeg, legs: [none, none] };
}

function straightLength(piece: Exclude<Piece, { kind: 'bend' }>) {
  return piece.kind === 'straight' ? piece.length : ({ value: pieceLength(piece), unit: 'mm' } as const);
}
