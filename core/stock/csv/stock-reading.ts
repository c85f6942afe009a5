/** What was read by a rule rather than as it stood: said once, so that nobody has to guess. */

import * as z from 'zod';
import { lengthSchema } from '../../header/quantity-schema.ts';
import { assertNever } from '../../result.ts';
import { typedText } from '../../units/format-typed.ts';
import type { Length } from '../../units/length.ts';

export type StockReading =
  | { readonly kind: 'gauge'; readonly text: string; readonly wall: Length }
  /** A currency sign left out, a comma read as a decimal point, or both. */
  | { readonly kind: 'cost'; readonly text: string; readonly cost: number; readonly sign: string | null };

export const stockReadingSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('gauge'), text: z.string(), wall: lengthSchema }),
  z.strictObject({ kind: z.literal('cost'), text: z.string(), cost: z.number(), sign: z.string().nullable() }),
]) satisfies z.ZodType<StockReading>;

/** `"16 ga" is read as a wall of 0.065".` */
export function describeStockReading(reading: StockReading): string {
  switch (reading.kind) {
    case 'gauge':
      return `"${reading.text}" is read as a wall of ${typedText(reading.wall)}.`;
    case 'cost':
      return reading.sign === null
        ? `"${reading.text}" is read as ${reading.cost}.`
        : `"${reading.text}" is read as ${reading.cost}: costs are in the shop's own money, so ${reading.sign} is left out.`;
    default:
      return assertNever(reading);
  }
}
