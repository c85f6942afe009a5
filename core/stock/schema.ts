/** Run-time shape of a stock item. */

import * as z from 'zod';
import { angleSchema, lengthSchema, positiveLengthSchema } from '../header/quantity-schema.ts';
import { idSchema, nameSchema, textSchema } from '../header/schema.ts';
import type { StockItem } from './stock-item.ts';

/** More of one kind than any shop has. */
export const COUNT_LIMIT = 100_000;
/** No piece costs more, in whatever money. */
export const COST_LIMIT = 1_000_000;

const count = z.int().min(0).max(COUNT_LIMIT);

const stockCommon = {
  id: idSchema,
  material: nameSchema,
  od: positiveLengthSchema,
  wall: positiveLengthSchema,
  count,
  note: textSchema,
  cost: z.number().min(0).max(COST_LIMIT).exactOptional(),
  least: count.exactOptional(),
  cutFrom: idSchema.nullable().exactOptional(),
};

export const stockItemSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('bend'),
    ...stockCommon,
    clr: positiveLengthSchema,
    angleDeg: angleSchema,
    legs: z.tuple([lengthSchema, lengthSchema]),
  }),
  z.strictObject({ kind: z.literal('straight'), ...stockCommon, length: positiveLengthSchema }),
]) satisfies z.ZodType<StockItem>;
