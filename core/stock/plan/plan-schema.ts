/** Run-time shape of what is asked of a cut plan and of what it answers: both cross the bridge. */

import * as z from 'zod';
import { angleSchema } from '../../header/quantity-schema.ts';
import { nameSchema } from '../../header/schema.ts';
import { type CutPlan, GOALS } from './cut-plan.ts';
import type { CutProblem } from './cut-problem.ts';

/** As long as a header's id and a piece's together. */
const id = z.string().min(1).max(160);
const lengthMm = z.number().min(0).max(1e6);
const sizeMm = z.number().min(1e-3).max(1e6);
const tube = z.strictObject({ material: nameSchema, odMm: sizeMm, wallMm: sizeMm });

const pieceSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('straight'), id, tube, lengthMm: sizeMm }),
  z.strictObject({ kind: z.literal('bend'), id, tube, clrMm: sizeMm, angleDeg: angleSchema }),
]);

const row = {
  id,
  tube,
  count: z.int().min(0).max(100_000),
  cost: z.number().min(0).max(1e6),
  isRemnant: z.boolean(),
};

const stockRowSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('straight'), ...row, lengthMm: sizeMm }),
  z.strictObject({
    kind: z.literal('bend'),
    ...row,
    clrMm: sizeMm,
    angleDeg: angleSchema,
    legsMm: z.tuple([lengthMm, lengthMm]),
  }),
]);

/** Ids of pieces, and of stock rows, are each there once. */
export const cutProblemSchema = z
  .strictObject({
    pieces: z.array(pieceSchema).max(2_000),
    joints: z.array(z.strictObject({ straightId: id, bendId: id })).max(4_000),
    stock: z.array(stockRowSchema).max(20_000),
    saw: z.strictObject({
      kerfMm: z.number().min(0).max(100),
      facingMm: z.number().min(0).max(100),
      shortestRemnantMm: lengthMm,
    }),
  })
  .refine(({ pieces }) => areDistinct(pieces), 'a piece is there twice')
  .refine(({ stock }) => areDistinct(stock), 'a stock row is there twice') satisfies z.ZodType<CutProblem>;

function areDistinct(all: readonly { readonly id: string }[]): boolean {
  return new Set(all.map((one) => one.id)).size === all.length;
}

const whole = z.int();
const stretch = { fromMm: z.number(), toMm: z.number() };

export const cutPlanSchema = z.strictObject({
  opened: z.array(
    z.strictObject({
      rowId: id,
      copy: whole.min(1),
      stretches: z.array(
        z.discriminatedUnion('kind', [
          z.strictObject({ kind: z.literal('piece'), ...stretch, pieceId: id }),
          z.strictObject({ kind: z.literal('cut'), ...stretch }),
          z.strictObject({ kind: z.literal('remnant'), ...stretch }),
          z.strictObject({ kind: z.literal('scrap'), ...stretch }),
        ]),
      ),
    }),
  ),
  short: z.array(id),
  goals: z.strictObject({ shortage: whole, cost: whole, welds: whole, lost: whole }),
  bounds: z.array(z.strictObject({ goal: z.enum(GOALS), reached: whole, bound: whole })),
  ended: z.enum(['searched', 'gaveUp', 'timeUp', 'stopped']),
}) satisfies z.ZodType<CutPlan>;
