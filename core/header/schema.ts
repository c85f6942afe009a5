/** Run-time shape of the document: what is checked on every file, row and message. */

import * as z from 'zod';
import type { LengthStyle } from '../units/length-style.ts';
import { engineSchema, measuredSchema, tolerancesSchema, tunedSourceSchema } from './as-built-schema.ts';
import type {
  Collector,
  Direction,
  Header,
  Inlet,
  Obstacle,
  Piece,
  Place,
  Pose,
  Primary,
  Settings,
  Tube,
} from './header.ts';
import { angleSchema, coordinateSchema, finite, lengthSchema, positiveLengthSchema } from './quantity-schema.ts';

export const TEXT_LIMIT = 2000;
export const NAME_LIMIT = 120;
export const PIECES_LIMIT = 500;
export const PIES_LIMIT = 90;
/** No cut of a pie-cut bend turns the tube by more than this: a mitre of 45 degrees on each side. */
export const TURN_LIMIT_DEG = 90;
export const PRIMARIES_LIMIT = 64;
export const OBSTACLES_LIMIT = 200;

/** Controls (bidirectional ones too) could make a name show as something that it is not; notes may have line ends. */
export const FORBIDDEN_CHARACTERS = /(?![\n\t])[\p{Cc}\p{Cs}\u202a-\u202e\u2066-\u2069]/u;

/**
 * Text in NFC, without looking at more of it than can fit: NFC makes at most four units one, and takes time by the square of
 * a row of accents, which a hostile file may hold by the million.
 */
const composed = (text: string, limit: number) =>
  text.length > 4 * limit ? text.slice(0, limit + 1).toWellFormed() : text.normalize('NFC');

const cleanText = (limit: number) =>
  z
    .string()
    .overwrite((text) => composed(text, limit))
    .max(limit)
    .refine((text) => !FORBIDDEN_CHARACTERS.test(text), 'forbidden characters');

export const idSchema = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);
/** A name is one line with something to see in it. */
export const nameSchema = cleanText(NAME_LIMIT)
  .refine((text) => /[^\s\p{Default_Ignorable_Code_Point}]/u.test(text), 'empty')
  .refine((text) => !/[\n\t]/.test(text), 'several lines');
export const textSchema = cleanText(TEXT_LIMIT);

const clockingSchema = finite(-360, 360).nullable();

export const lengthStyleSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('fraction'),
    per: z.union([z.literal(8), z.literal(16), z.literal(32), z.literal(64)]),
  }),
  z.strictObject({ kind: z.literal('decimalInch'), places: z.union([z.literal(2), z.literal(3), z.literal(4)]) }),
  z.strictObject({ kind: z.literal('mm'), places: z.union([z.literal(0), z.literal(1), z.literal(2)]) }),
]) satisfies z.ZodType<LengthStyle>;

/** Degrees that each cut of a pie-cut bend turns the tube by. */
export const turnPerCutDeg = (bend: { readonly angleDeg: number; readonly pies: number }) => bend.angleDeg / bend.pies;

const pieceCommon = {
  id: idSchema,
  state: z.enum(['planned', 'cut', 'tacked', 'welded']),
  locked: z.boolean(),
  note: textSchema,
};
const bendShape = { clr: positiveLengthSchema, angleDeg: angleSchema, clockingDeg: clockingSchema };

export const pieceSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('straight'), ...pieceCommon, length: lengthSchema }),
  z.strictObject({ kind: z.literal('bend'), ...pieceCommon, ...bendShape }),
  z
    .strictObject({ kind: z.literal('pieCut'), ...pieceCommon, ...bendShape, pies: z.int().min(1).max(PIES_LIMIT) })
    .refine((bend) => turnPerCutDeg(bend) <= TURN_LIMIT_DEG, { message: 'too few pies', path: ['pies'] }),
]) satisfies z.ZodType<Piece>;

export const tubeSchema = z.strictObject({
  material: nameSchema,
  od: positiveLengthSchema,
  wall: positiveLengthSchema,
}) satisfies z.ZodType<Tube>;

export const directionSchema = z
  .strictObject({ x: finite(-1e6, 1e6), y: finite(-1e6, 1e6), z: finite(-1e6, 1e6) })
  .refine((v) => Math.hypot(v.x, v.y, v.z) > 1e-9, 'zero direction') satisfies z.ZodType<Direction>;

export const placeSchema = z.strictObject({
  x: coordinateSchema,
  y: coordinateSchema,
  z: coordinateSchema,
}) satisfies z.ZodType<Place>;

export const poseSchema = z.strictObject({
  at: placeSchema,
  direction: directionSchema,
  up: directionSchema,
}) satisfies z.ZodType<Pose>;

export const primaryFields = {
  name: nameSchema,
  tube: tubeSchema.nullable(),
  port: poseSchema.nullable(),
  inletId: idSchema.nullable(),
};

export const primarySchema = z.strictObject({
  id: idSchema,
  ...primaryFields,
  pieces: z.array(pieceSchema).max(PIECES_LIMIT),
  measured: measuredSchema.refine((list) => list.length > 0, 'empty list').exactOptional(),
}) satisfies z.ZodType<Primary>;

const inletSchema = z.strictObject({
  id: idSchema,
  name: nameSchema,
  place: z
    .discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('pose'), pose: poseSchema }),
      z.strictObject({ kind: z.literal('endOf'), primaryId: idSchema }),
    ])
    .nullable(),
  slip: z.strictObject({ deeper: lengthSchema, shallower: lengthSchema }),
}) satisfies z.ZodType<Inlet>;

export const collectorSchema = z.strictObject({
  id: idSchema,
  name: nameSchema,
  inlets: z.array(inletSchema).max(PRIMARIES_LIMIT),
}) satisfies z.ZodType<Collector>;

const bodyCommon = { id: idSchema, name: nameSchema };
export const obstacleSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('box'), ...bodyCommon, corner: placeSchema, opposite: placeSchema }),
  z.strictObject({
    kind: z.literal('cylinder'),
    ...bodyCommon,
    from: placeSchema,
    to: placeSchema,
    diameter: positiveLengthSchema,
  }),
  z.strictObject({ kind: z.literal('plane'), ...bodyCommon, at: placeSchema, normal: directionSchema }),
]) satisfies z.ZodType<Obstacle>;

export const settingsSchema = z.strictObject({
  target: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('longest') }),
    z.strictObject({ kind: z.literal('mean') }),
    z.strictObject({ kind: z.literal('primary'), primaryId: idSchema }),
    z.strictObject({
      kind: z.literal('typed'),
      length: positiveLengthSchema,
      tuned: tunedSourceSchema.exactOptional(),
    }),
  ]),
  tolerance: z.strictObject({ minus: lengthSchema, plus: lengthSchema }),
  display: lengthStyleSchema,
  tube: tubeSchema,
  clr: positiveLengthSchema,
  weldShrinkage: lengthSchema,
  shortestStraight: lengthSchema,
  closure: z.strictObject({ gap: lengthSchema, tiltDeg: finite(0, 180) }),
  wantedGap: lengthSchema,
}) satisfies z.ZodType<Settings>;

export const headerSchema = z.strictObject({
  id: idSchema,
  name: nameSchema,
  note: textSchema,
  state: z.enum(['open', 'finished']),
  settings: settingsSchema,
  primaries: z.array(primarySchema).max(PRIMARIES_LIMIT),
  collectors: z.array(collectorSchema).max(PRIMARIES_LIMIT),
  obstacles: z.array(obstacleSchema).max(OBSTACLES_LIMIT),
  tolerances: tolerancesSchema.exactOptional(),
  engine: engineSchema.exactOptional(),
}) satisfies z.ZodType<Header>;
