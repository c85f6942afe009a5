/** What crosses the bridge of finished headers: their rows, how they are found, and what the shop's charts are drawn from. */

import * as z from 'zod';
import { idSchema, lengthStyleSchema } from '../../core/index.ts';
import { finiteMm, timeLabel } from './messages.ts';

const rangeMm = z.strictObject({ lowMm: finiteMm, highMm: finiteMm }).nullable();
/** As far as JavaScript's dates reach. */
const timeMs = z.number().min(-8.64e15).max(8.64e15);

/** A finished header in a list: its figures as they were when it was finished. */
export const archiveRowSchema = z.strictObject({
  headerId: idSchema,
  name: z.string(),
  note: z.string(),
  finishedAt: timeLabel,
  display: lengthStyleSchema,
  material: z.string(),
  odMm: finiteMm,
  wallMm: finiteMm,
  primaryCount: z.int().min(0),
  targetMm: finiteMm,
  meanMm: finiteMm,
  spreadMm: finiteMm,
  /** Joints that steps took apart while it was made; null where its steps do not tell. */
  jointsOpened: z.int().min(0).nullable(),
  /** What was kept of it is not what was written: the figures were worked out again from what is left. */
  isDamaged: z.boolean(),
});

/** A header that others are put in order by. */
export const likeSchema = z.strictObject({
  headerId: idSchema,
  name: z.string(),
  material: z.string(),
  odMm: finiteMm,
  wallMm: finiteMm,
  primaryCount: z.int().min(0),
  targetMm: finiteMm,
});

/** What one finished header is found by; null and empty leave it open. All that is given must fit. */
export const archiveSearchSchema = z.strictObject({
  /** Each must occur in name, note or material, whatever case and accents. */
  words: z.string().max(200),
  material: z.string().max(200),
  odMm: rangeMm,
  primaryCount: z.int().nullable(),
  targetMm: rangeMm,
  spreadMm: rangeMm,
  /** Milliseconds since 1970, both ends included. */
  finishedAt: z.strictObject({ low: timeMs, high: timeMs }).nullable(),
  /** Those most like this header first, itself left out; null: those finished last first. */
  likeId: idSchema.nullable(),
  /** How many of those found to pass over, and how many to answer with at most. */
  from: z.int().min(0),
  most: z.int().min(1).max(100),
});

/** What the shop's charts are drawn from. */
export const shopFiguresSchema = z.strictObject({
  /** In the order in which they were finished. */
  finished: z.array(
    z.strictObject({
      headerId: idSchema,
      name: z.string(),
      finishedAt: timeLabel,
      /** Null: of fewer than two primaries. */
      spreadMm: finiteMm.nullable(),
      jointsOpened: z.int().min(0).nullable(),
    }),
  ),
  /** Tube on the shelf after the last step of each day (UTC) on which it changed, the oldest first. */
  tubeLeft: z.array(z.strictObject({ at: timeLabel, mm: z.number() })),
});
