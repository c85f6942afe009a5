/** Every way in which the shelf changes, as data: what a shop does to its stock book in one go is a list of these. */

import * as z from 'zod';
import { idSchema } from '../../header/schema.ts';
import { COUNT_LIMIT, stockItemSchema } from '../schema.ts';
import type { StockItem } from '../stock-item.ts';

/** Why pieces come or go. `takenBack` is the undoing of another movement. */
export const MOVEMENT_REASONS = ['received', 'cut', 'scrapped', 'counted', 'takenBack'] as const;
export type MovementReason = (typeof MOVEMENT_REASONS)[number];

export type ShelfChange =
  /** A new row; its count is received, or, of a remnant, left over from a cut. A row that was taken off comes back as this. */
  | { readonly kind: 'add'; readonly item: StockItem }
  /** The row as it was at `revision` becomes this; another count is what was counted. */
  | { readonly kind: 'set'; readonly item: StockItem; readonly revision: number }
  /** The row leaves the shelf; what was left of it is scrapped. The book keeps it. */
  | { readonly kind: 'retire'; readonly itemId: string; readonly revision: number }
  /** So many pieces come (`received`) or go (`cut`, `scrapped`), whatever else happened to the row meanwhile. */
  | {
      readonly kind: 'move';
      readonly itemId: string;
      readonly pieces: number;
      readonly reason: 'received' | 'cut' | 'scrapped';
    };

const revision = z.int().min(0);

export const shelfChangeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('add'), item: stockItemSchema }),
  z.strictObject({ kind: z.literal('set'), item: stockItemSchema, revision }),
  z.strictObject({ kind: z.literal('retire'), itemId: idSchema, revision }),
  z.strictObject({
    kind: z.literal('move'),
    itemId: idSchema,
    pieces: z.int().min(1).max(COUNT_LIMIT),
    reason: z.enum(['received', 'cut', 'scrapped']),
  }),
]) satisfies z.ZodType<ShelfChange>;
