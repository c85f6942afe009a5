/** Run-time shape of edits: what is checked of every step that is sent, and of every row of the journal read back. */

import * as z from 'zod';
import { engineSchema, measuredSchema, tolerancesSchema } from '../header/as-built-schema.ts';
import {
  collectorSchema,
  idSchema,
  nameSchema,
  obstacleSchema,
  pieceSchema,
  primaryFields,
  primarySchema,
  settingsSchema,
  textSchema,
} from '../header/schema.ts';
import type { Edit } from './edit.ts';

const placeInList = z.int().min(0).max(1000);
const pieceAt = { primaryId: idSchema, pieceId: idSchema };

const singleEdits = [
  z.strictObject({
    kind: z.literal('setHeader'),
    set: z.strictObject({ name: nameSchema, note: textSchema }).partial(),
  }),
  z.strictObject({ kind: z.literal('setSettings'), set: settingsSchema.partial() }),
  z.strictObject({ kind: z.literal('setTolerances'), tolerances: tolerancesSchema.nullable() }),
  z.strictObject({ kind: z.literal('setEngine'), engine: engineSchema.nullable() }),
  z.strictObject({ kind: z.literal('addPrimary'), primary: primarySchema, at: placeInList }),
  z.strictObject({ kind: z.literal('removePrimary'), primaryId: idSchema }),
  z.strictObject({ kind: z.literal('movePrimary'), primaryId: idSchema, to: placeInList }),
  z.strictObject({ kind: z.literal('setPrimary'), primaryId: idSchema, set: z.strictObject(primaryFields).partial() }),
  z.strictObject({ kind: z.literal('setMeasured'), primaryId: idSchema, measured: measuredSchema }),
  z.strictObject({ kind: z.literal('addPiece'), primaryId: idSchema, piece: pieceSchema, at: placeInList }),
  z.strictObject({ kind: z.literal('removePiece'), ...pieceAt }),
  z.strictObject({ kind: z.literal('movePiece'), ...pieceAt, to: placeInList }),
  z.strictObject({ kind: z.literal('replacePiece'), primaryId: idSchema, piece: pieceSchema }),
  z.strictObject({ kind: z.literal('addCollector'), collector: collectorSchema, at: placeInList }),
  z.strictObject({ kind: z.literal('removeCollector'), collectorId: idSchema }),
  z.strictObject({ kind: z.literal('replaceCollector'), collector: collectorSchema }),
  z.strictObject({ kind: z.literal('addObstacle'), obstacle: obstacleSchema, at: placeInList }),
  z.strictObject({ kind: z.literal('removeObstacle'), obstacleId: idSchema }),
  z.strictObject({ kind: z.literal('replaceObstacle'), obstacle: obstacleSchema }),
  z.strictObject({ kind: z.literal('finishHeader') }),
  z.strictObject({ kind: z.literal('reopenHeader') }),
] as const;
/** Any one edit but a batch. */
const singleEditSchema = z.discriminatedUnion('kind', singleEdits);

/** A batch holds single edits only: one level is all that a step needs, and it bounds the depth. */
export const editSchema: z.ZodType<Edit> = z.discriminatedUnion('kind', [
  ...singleEdits,
  z.strictObject({ kind: z.literal('batch'), label: nameSchema, edits: z.array(singleEditSchema).max(2000) }),
]) as z.ZodType<Edit>;
