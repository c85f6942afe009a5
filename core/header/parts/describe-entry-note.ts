/** Says in one short sentence what is odd about a line that can be read. */

import { assertNever } from '../../result.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { EntryNote } from './entry-notes.ts';

/** `A bend of 360° is more than a U-bend: check the angle.` Lengths are shown in `style`. */
export function describeEntryNote(note: EntryNote, style: LengthStyle): string {
  switch (note.kind) {
    case 'longStraight':
      return `A straight of ${formatLength(note.lengthMm, style)} is longer than 10 ft: check the unit.`;
    case 'pastHalfTurn':
      return `${formatAngle(note.angleDeg)} is more than a U-bend: check the angle.`;
    case 'smallAngle':
      return `${formatAngle(note.angleDeg)} is less than 1°: check the angle.`;
    case 'fractionAngle':
      return `${note.text} is read as the fraction, ${formatAngle(note.angleDeg)}: for a clocking type b${note.text.replace('/', ' ')}.`;
    case 'wideClr':
      return `The CLR is ${tenths(note.diameters)} tube diameters: check it and its unit.`;
    case 'tightClr':
      return `The CLR is ${tenths(note.diameters)} of the tube's diameter, tighter than a mandrel bends: check it.`;
    case 'oddFraction':
      return `${note.text} is on no tape: check the fraction.`;
    case 'decimalComma':
      return `Comma read as a decimal: ${note.numbers.map((number) => `${number} is ${number.replace(',', '.')}`).join(', ')}.`;
    default:
      return assertNever(note);
  }
}

function tenths(diameters: number): string {
  return String(Math.round(diameters * 10) / 10);
}
