/** Reads angles as people type them: 90, 22.5, 22 1/2, -45, with or without a degree mark. */

import { failure, type Result, success } from '../result.ts';
import { numberOf } from './rational.ts';
import { clipped, type Fault, leftover, readQuantity, startReading, take, takeSign } from './read-quantity.ts';
import type { UnitsProblem } from './units-problem.ts';

/** No angle beyond this is read; what an angle may be for (0 to 360 of a bend, say) is for the caller to check. */
export const TYPED_ANGLE_LIMIT_DEG = 1e6;

const DEGREE_WORDS: readonly string[] = ['deg', 'degree', 'degrees'];

/**
 * An angle of either sign in degrees.
 * @returns degrees; minus zero comes back as zero
 */
export function parseAngle(text: string): Result<number, UnitsProblem> {
  const angle = readAngle(text);
  if (angle.ok) return angle;
  const { reason, part } = angle.problems[0] ?? { reason: 'notANumber', part: '' };
  return failure({ kind: 'unreadableAngle', text: clipped(text.trim()), reason, part });
}

function readAngle(text: string): Result<number, Fault> {
  const started = startReading(text);
  if (!started.ok) return started;
  const reading = started.value;
  const isNegative = takeSign(reading);
  const quantity = readQuantity(reading);
  if (!quantity.ok) return quantity;
  if (take(reading, 'degree') === null) {
    const word = take(reading, 'word');
    if (word !== null && !DEGREE_WORDS.includes(word.text.toLowerCase())) {
      return failure({ reason: 'unknownUnit', part: word.text });
    }
  }
  if (reading.at < reading.tokens.length) return leftover(reading);
  const angleDeg = numberOf(quantity.value.value);
  if (angleDeg > TYPED_ANGLE_LIMIT_DEG) return failure({ reason: 'outOfRange', part: reading.text });
  return success(isNegative && angleDeg !== 0 ? -angleDeg : angleDeg);
}
