/** Run-time shape of what is said of the finished tube and of the engine. */

import * as z from 'zod';
import {
  CYCLE_DEG,
  type Engine,
  INTERVAL_SUM_SLACK_DEG,
  kelvinOf,
  type Temperature,
  type TunedInputs,
  type TunedSource,
} from './engine.ts';
import { MEASURE_KINDS, type Measurement, type ShopTolerances, type Volume } from './measured.ts';
import { finite, LENGTH_LIMIT, lengthSchema, positiveLengthSchema } from './quantity-schema.ts';

/** No engine with a header of tubes has more. */
export const CYLINDERS_LIMIT = 64;

const volumeSchema = z.strictObject({
  value: finite(0, LENGTH_LIMIT),
  unit: z.enum(['ml', 'in3']),
}) satisfies z.ZodType<Volume>;
const readVolumeSchema = volumeSchema.extend({ value: finite(Number.MIN_VALUE, LENGTH_LIMIT) });

const measurementSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.enum(['outsideTape', 'centreline']), length: positiveLengthSchema, within: lengthSchema }),
  z.strictObject({ kind: z.literal('filling'), volume: readVolumeSchema, within: volumeSchema }),
]) satisfies z.ZodType<Measurement>;

/** At most one reading a method; a list of none is no list. */
export const measuredSchema = z
  .array(measurementSchema)
  .max(MEASURE_KINDS.length)
  .refine((list) => new Set(list.map(({ kind }) => kind)).size === list.length, 'method twice');

export const tolerancesSchema = z.strictObject({
  angleDeg: finite(0, 45),
  clockingDeg: finite(0, 180),
  length: lengthSchema,
}) satisfies z.ZodType<ShopTolerances>;

/** Without heat there is no sound to time anything by. */
const temperatureSchema = z
  .strictObject({ value: finite(-500, 5000), unit: z.enum(['C', 'F', 'K']) })
  .refine((temperature) => kelvinOf(temperature) > 0, {
    message: 'no heat',
    path: ['value'],
  }) satisfies z.ZodType<Temperature>;

const intervalsSchema = z
  .array(finite(0, CYCLE_DEG))
  .max(CYLINDERS_LIMIT)
  .refine(
    (list) => Math.abs(list.reduce((sum, interval) => sum + interval, 0) - CYCLE_DEG) <= INTERVAL_SUM_SLACK_DEG,
    'intervals not of one cycle',
  );

export const engineSchema = z
  .strictObject({
    firingOrder: z
      .array(z.int().min(1).max(CYLINDERS_LIMIT))
      .min(1)
      .max(CYLINDERS_LIMIT)
      .refine((order) => new Set(order).size === order.length, 'cylinder twice')
      .refine((order) => order.every((cylinder) => cylinder <= order.length), 'cylinder left out'),
    firingIntervalsDeg: intervalsSchema.exactOptional(),
    rpm: finite(1, 100_000),
    gasTemperature: temperatureSchema,
    gamma: finite(1.001, 2),
    molarMass: finite(1, 200),
  })
  .refine(
    ({ firingOrder, firingIntervalsDeg: intervals }) => (intervals ?? firingOrder).length === firingOrder.length,
    {
      message: 'intervals of other cylinders',
      path: ['firingIntervalsDeg'],
    },
  ) satisfies z.ZodType<Engine>;

const tunedInputsSchema = z.strictObject({
  rpm: finite(1, 100_000),
  openingDeg: finite(0, 180),
  travelDeg: finite(1, 720),
  order: finite(0.5, 100),
  soundMs: finite(1, 5000),
  port: lengthSchema,
  cylinder: readVolumeSchema,
}) satisfies z.ZodType<TunedInputs>;

export const tunedSourceSchema = z.strictObject({
  formula: z.enum(['valveTiming', 'twoStage', 'waveTravel', 'quarterWave']),
  inputs: tunedInputsSchema,
}) satisfies z.ZodType<TunedSource>;
