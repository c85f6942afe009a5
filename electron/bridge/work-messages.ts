/** Long work, and finished headers on their way out and back in, as they cross the bridge. */

import * as z from 'zod';
import { idSchema } from '../../core/index.ts';
import { fileContent, problemSchema, timeLabel } from './messages.ts';

/** Which finished headers are put into one file; null: all that are not in the bin. */
export const beginExportSchema = z.strictObject({ headerIds: z.array(idSchema).min(1).max(1000).nullable() });

/** Null: the person called it off when asked where to put the file. */
export const begunSchema = z.strictObject({ workId: idSchema.nullable() });

const count = z.int().min(0);

/** A header that is not as it should be. */
const namedProblem = z.strictObject({ name: z.string(), problem: problemSchema });

/** What a whole database holds, proven by reading all of it. */
const provenSchema = {
  headers: count,
  /** Of these. */
  finished: count,
  bytes: count,
  /** Headers that are damaged or altered, there as here. */
  damaged: z.array(namedProblem),
};

const doneSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('exported'),
    headers: count,
    bytes: count,
    leftOut: z.array(namedProblem),
    /** Null: the page has all of the file, and saves it. */
    fileName: z.string().nullable(),
  }),
  z.strictObject({ kind: z.literal('backedUp'), ...provenSchema, fileName: z.string().nullable() }),
  /** Ready to take the place of what is here, by `restoreGiven`. */
  z.strictObject({
    kind: z.literal('proven'),
    ...provenSchema,
    givenId: idSchema,
    /** When a header in it was changed last; null where it holds none. */
    changedAt: timeLabel.nullable(),
  }),
]);

export const workStateSchema = z.discriminatedUnion('state', [
  z.strictObject({
    state: z.literal('going'),
    stage: z.enum(['copying', 'reading', 'proving', 'writing']),
    done: count,
    of: count,
    /** Of a file that the page puts together. */
    piece: z.base64().nullable(),
  }),
  z.strictObject({ state: z.literal('done'), done: doneSchema }),
]);

/** `piece`: the next of a file that the page hands in; null while there is none to hand in. */
export const continueWorkSchema = z.strictObject({ workId: idSchema, piece: fileContent.nullable() });

/** Lines of a file of finished headers, by their numbers in it from 1. */
export const bringBackSchema = z.strictObject({
  lines: z
    .array(z.strictObject({ line: z.int().min(1), text: z.string().max(14_000_000) }))
    .min(1)
    .max(200),
});

const line = { line: z.int().min(1) };
const broughtSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.enum(['brought', 'broughtAsAnother', 'alreadyThere', 'inBin']),
    ...line,
    headerId: idSchema,
    name: z.string(),
  }),
  z.strictObject({ kind: z.literal('refused'), ...line, problem: problemSchema }),
]);

export const broughtBackSchema = z.strictObject({ lines: z.array(broughtSchema) });
