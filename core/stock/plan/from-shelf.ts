/** A cut problem out of headers and the shelf: the planned pieces, the joints between them, and the stock at hand. */

import { type Header, type Piece, type Primary, type Tube, tubeOf } from '../../header/header.ts';
import { centrelineArcMm } from '../../length/bend-arcs.ts';
import { pieCutLengthMm, sawAngleDeg } from '../../length/pie-cut.ts';
import { radiansOf } from '../../units/angle.ts';
import { mmOf } from '../../units/length.ts';
import { isRemnant, type StockItem } from '../stock-item.ts';
import type { CutJoint, CutPiece, CutProblem, CutTube, SawSettings, StockRow } from './cut-problem.ts';

/** What a shop's saw takes, until it says otherwise: 1/16 in of kerf, no facing, and remnants kept from 2 in on. */
export const DEFAULT_SAW: SawSettings = { kerfMm: 1.5875, facingMm: 0, shortestRemnantMm: 50.8 };

/** Name of a piece among those of several headers. */
export function cutPieceId(header: Pick<Header, 'id'>, piece: Pick<Piece, 'id'>): string {
  return `${header.id}:${piece.id}`;
}

/**
 * Pieces that are planned; what is cut, tacked or welded has its tube already. A pie-cut bend is a straight blank: its
 * chords, and as many mitred cuts, each of which takes `kerf / cos t` along the tube.
 */
export function cutProblemOf(headers: readonly Header[], stock: readonly StockItem[], saw: SawSettings): CutProblem {
  const primaries = headers.flatMap((header) => header.primaries.map((primary) => ({ header, primary })));
  return {
    pieces: primaries.flatMap(({ header, primary }) => piecesOf(header, primary, saw)),
    joints: primaries.flatMap(({ header, primary }) => jointsOf(header, primary)),
    stock: stock.map(stockRow),
    saw,
  };
}

function tubeMm({ material, od, wall }: Tube): CutTube {
  return { material, odMm: mmOf(od), wallMm: mmOf(wall) };
}

function piecesOf(header: Header, primary: Primary, saw: SawSettings): readonly CutPiece[] {
  const tube = tubeMm(tubeOf(header, primary));
  return primary.pieces.flatMap((piece): readonly CutPiece[] => {
    if (!isToCut(piece)) return [];
    const id = cutPieceId(header, piece);
    if (piece.kind === 'bend') return [{ kind: 'bend', id, tube, clrMm: mmOf(piece.clr), angleDeg: piece.angleDeg }];
    if (piece.kind === 'straight') return [{ kind: 'straight', id, tube, lengthMm: mmOf(piece.length) }];
    const shape = { clrMm: mmOf(piece.clr), angleDeg: piece.angleDeg, pies: piece.pies };
    const cutsMm = (piece.pies * saw.kerfMm) / Math.cos(radiansOf(sawAngleDeg(shape)));
    return [{ kind: 'straight', id, tube, lengthMm: pieCutLengthMm(shape) + cutsMm }];
  });
}

function isToCut(piece: Piece): boolean {
  return piece.state === 'planned' && (piece.kind !== 'straight' || mmOf(piece.length) > 0);
}

function jointsOf(header: Header, { pieces }: Primary): readonly CutJoint[] {
  return pieces.flatMap((piece, at) => {
    const next = pieces[at + 1];
    if (next === undefined || !isToCut(piece) || !isToCut(next)) return [];
    const [straight, bend] = piece.kind === 'straight' ? [piece, next] : [next, piece];
    if (straight.kind !== 'straight' || bend.kind !== 'bend') return [];
    return [{ straightId: cutPieceId(header, straight), bendId: cutPieceId(header, bend) }];
  });
}

/** Where the shelf knows no price an item counts by its tube, a hundredth of the shop's money a millimetre. */
export function stockRow(item: StockItem): StockRow {
  const row = { id: item.id, tube: tubeMm(item), count: item.count, isRemnant: isRemnant(item) };
  if (item.kind === 'straight') {
    const lengthMm = mmOf(item.length);
    return { ...row, kind: 'straight', lengthMm, cost: item.cost ?? lengthMm / 100 };
  }
  const [clrMm, angleDeg] = [mmOf(item.clr), item.angleDeg];
  const legsMm = [mmOf(item.legs[0]), mmOf(item.legs[1])] as const;
  const lengthMm = centrelineArcMm(clrMm, angleDeg) + legsMm[0] + legsMm[1];
  return { ...row, kind: 'bend', clrMm, angleDeg, legsMm, cost: item.cost ?? lengthMm / 100 };
}
