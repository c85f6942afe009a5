/** Run-time shape of a stock item. */

import * as z from 'zod';
import { angleSchema, idSchema, lengthSchema, nameSchema, positiveLengthSchema, textSchema } from '../header/schema.ts';
import type { StockItem } from './stock-item.ts';

const stockCommon = {
  id: idSchema,
  material: nameSchema,
  od: positiveLengthSchema,
  wall: positiveLengthSchema,
  count: z.int().min(0).max(100_000),
  note: textSchema,
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
