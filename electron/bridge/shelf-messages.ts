/** The parts of what crosses the bridge about the shelf, and about cutting from it. */

import * as z from 'zod';
import {
  cutPlanSchema,
  editSchema,
  idSchema,
  type KeptPlan,
  keptPlanSchema,
  MOVEMENT_REASONS,
  nameSchema,
  type ShelfChange,
  shelfChangeSchema,
} from '../../core/index.ts';
import { requestId, revision, stockItem, timeLabel } from './messages.ts';

export const shelfChange: z.ZodType<ShelfChange> = shelfChangeSchema;
export const keptPlan: z.ZodType<KeptPlan> = keptPlanSchema;
export const storedStockItemSchema = z.strictObject({
  item: stockItem,
  revision,
  /** Something of the book is damaged: the count is of what is sound, and true again once the row is counted. */
  isDoubtful: z.boolean(),
});

/** A step of the stock book that can be turned back next. */
const nextStepSchema = z.strictObject({ step: z.int().min(1), label: z.string() }).nullable();
export const shelfHistorySchema = z.strictObject({ undo: nextStepSchema, redo: nextStepSchema });

export const shelfWrittenSchema = z.strictObject({
  /** By which it is taken back. */
  step: z.int().min(1),
  /** The rows that it touched and that are on the shelf; null: so many that the shelf is better read again. */
  stock: z.array(storedStockItemSchema).nullable(),
  /** Ids of rows that left the shelf; among many rows none is named. */
  gone: z.array(idSchema),
});

/** Why a count is what it is, the latest first. */
export const movementSchema = z.strictObject({
  pieces: z.int(),
  reason: z.enum(MOVEMENT_REASONS),
  movedAt: timeLabel,
  /** What was done; null where that can no longer be told. */
  label: z.string().nullable(),
  /** Count after it. */
  left: z.int(),
});

/** How far a cut plan is. */
export const planProgressSchema = z.strictObject({
  tubesPlanned: z.int().min(0),
  tubes: z.int().min(0),
  best: cutPlanSchema,
});

/** A cut plan that is sawn. */
export const carriedOutSchema = z.strictObject({
  requestId,
  headers: z
    .array(z.strictObject({ headerId: idSchema, baseRevision: revision, edit: editSchema }))
    .min(1)
    .max(40)
    .refine(
      (headers) => new Set(headers.map(({ headerId }) => headerId)).size === headers.length,
      'a header is there twice',
    ),
  changes: z.array(shelfChange).min(1).max(20_000),
  /** The rows that the plan was made with. */
  known: z.array(z.strictObject({ itemId: idSchema, revision })).max(20_000),
  /** What the stock book calls the step. */
  because: nameSchema,
  kept: keptPlan,
});

/** One that was, and stands; `step` is that of the stock book. */
export const sawnPlanSchema = z.strictObject({ step: z.int().min(1), madeAt: timeLabel, kept: keptPlan });
