/** A cut plan as it is kept once it was carried out: all that it takes to show its cut list again, whatever header and shelf have become. */

import * as z from 'zod';
import type { Header, Piece } from '../../header/header.ts';
import { nameSchema, PIECES_LIMIT, PRIMARIES_LIMIT, pieceSchema } from '../../header/schema.ts';
import { stockItemSchema } from '../schema.ts';
import type { StockItem } from '../stock-item.ts';
import type { CutPlan } from './cut-plan.ts';
import type { CutProblem } from './cut-problem.ts';
import { cutPieceId } from './from-shelf.ts';
import { cutPlanSchema, cutProblemSchema } from './plan-schema.ts';

/** Where a piece of a plan stood in its header, by which it is written on the tube. */
export interface PlacedPiece {
  /** Among the plan's pieces. */
  readonly id: string;
  readonly piece: Piece;
  /** Null where the plan is of one header alone. */
  readonly headerName: string | null;
  readonly primaryName: string;
  /** From 1, as the bench counts them. */
  readonly pieceNumber: number;
}

/** A plan with what it was made from: header and shelf may have gone on since. */
export interface KeptPlan {
  readonly pieces: readonly PlacedPiece[];
  /** Rows of the shelf that the plan opens, as they were. */
  readonly stock: readonly StockItem[];
  readonly problem: CutProblem;
  readonly plan: CutPlan;
}

export const keptPlanSchema = z.strictObject({
  pieces: z
    .array(
      z.strictObject({
        id: z.string().min(1).max(160),
        piece: pieceSchema,
        headerName: nameSchema.nullable(),
        primaryName: nameSchema,
        pieceNumber: z.int().min(1).max(PIECES_LIMIT),
      }),
    )
    .max(PRIMARIES_LIMIT * PIECES_LIMIT),
  stock: z.array(stockItemSchema).max(20_000),
  problem: cutProblemSchema,
  plan: cutPlanSchema,
}) satisfies z.ZodType<KeptPlan>;

/** Every piece of the headers by its name in a plan. */
export function placedPieces(headers: readonly Header[]): readonly PlacedPiece[] {
  return headers.flatMap((header) => {
    const headerName = headers.length === 1 ? null : header.name;
    return header.primaries.flatMap(({ name: primaryName, pieces }) =>
      pieces.map((piece, at) => ({
        id: cutPieceId(header, piece),
        piece,
        headerName,
        primaryName,
        pieceNumber: at + 1,
      })),
    );
  });
}

/** The plan without what it has no use for: pieces that it does not plan, and stock that it does not open. */
export function keptPlan({ pieces, stock, problem, plan }: KeptPlan): KeptPlan {
  const planned = new Set(problem.pieces.map(({ id }) => id));
  const opened = new Set(plan.opened.map(({ rowId }) => rowId));
  return {
    pieces: pieces.filter(({ id }) => planned.has(id)),
    stock: stock.filter(({ id }) => opened.has(id)),
    problem: { ...problem, stock: problem.stock.filter(({ id }) => opened.has(id)) },
    plan,
  };
}
