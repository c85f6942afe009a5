/** What is sent of the steps that a person made. */

import * as z from 'zod';
import { editSchema } from '../../core/index.ts';

const stepId = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/);

/**
 * No id is committed twice: steps sent again against the same revision are acknowledged as the first time, and an id that
 * is used for any other step is refused.
 */
const stepSchema = z.discriminatedUnion('action', [
  z.strictObject({ action: z.literal('do'), stepId, edit: editSchema }),
  z.strictObject({ action: z.literal('undo'), stepId }),
  z.strictObject({ action: z.literal('redo'), stepId }),
]);

/** The steps of one request, in their order. */
export const stepsSchema = z
  .array(stepSchema)
  .min(1)
  .max(500)
  .refine((steps) => new Set(steps.map((step) => step.stepId)).size === steps.length, 'a step is there twice');
