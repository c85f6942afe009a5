/** Run-time shape of the numbers in a document: lengths, angles, and how large they may be. */

import * as z from 'zod';
import type { Length } from '../units/length.ts';

// The renderer's content policy forbids `new Function`, which zod would otherwise compile schemas with.
z.config({ jitless: true });

/** No length in a header is longer than this; about a kilometre, so that sums stay far from overflow. */
export const LENGTH_LIMIT = 1e6;

/** Negative zero is stored as zero: databases and files do not keep the sign. */
export const finite = (low: number, high: number) =>
  z
    .number()
    .min(low)
    .max(high)
    .overwrite((value) => (value === 0 ? 0 : value));

const unitSchema = z.enum(['in', 'mm']);
const lengthBetween = (low: number, high: number) =>
  z.strictObject({ value: finite(low, high), unit: unitSchema }) satisfies z.ZodType<Length>;

export const coordinateSchema = lengthBetween(-LENGTH_LIMIT, LENGTH_LIMIT);
export const lengthSchema = lengthBetween(0, LENGTH_LIMIT);
export const positiveLengthSchema = lengthBetween(Number.MIN_VALUE, LENGTH_LIMIT);
export const angleSchema = finite(Number.MIN_VALUE, 360);
