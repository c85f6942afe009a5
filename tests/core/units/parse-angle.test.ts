/** Reading of angles. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatTypedAngle } from '../../../core/units/format-typed.ts';
import { parseAngle } from '../../../core/units/parse-angle.ts';
import type { UnitsProblem } from '../../../core/units/units-problem.ts';

describe('an angle is read as people write it', () => {
  test.each([
    ['90', 90],
    ['90°', 90],
    ['90 °', 90],
    ['90º', 90],
    ['90 deg', 90],
    ['90DEG', 90],
    ['1 degree', 1],
    ['22 1/2', 22.5],
    ['22-1/2 degrees', 22.5],
    ['22½°', 22.5],
    ['22.5', 22.5],
    ['-45', -45],
    ['\u221245°', -45],
    ['+45', 45],
    ['- 45', -45],
    ['-22 1/2', -22.5],
    ['720', 720],
    ['0', 0],
    ['-0', 0],
  ])('%s is %d degrees', (text, angleDeg) => {
    expect(parseAngle(text)).toEqual({ ok: true, value: angleDeg });
  });

  test.each<[string, UnitsProblem['reason'], string]>([
    ['', 'empty', ''],
    ['x', 'notANumber', 'x'],
    ['90 rad', 'unknownUnit', 'rad'],
    ["90'", 'leftover', "'"],
    ['90 45', 'leftover', '45'],
    ['22 1/', 'noDenominator', '1/'],
    ['22,5', 'decimalComma', '22,5'],
    ['45/2', 'improperFraction', '45/2'],
    ['1000001', 'outOfRange', '1000001'],
  ])('%j is refused: %s at %j', (text, reason, part) => {
    expect(parseAngle(text)).toEqual({ ok: false, problems: [{ kind: 'unreadableAngle', text, reason, part }] });
  });

  test('every angle written for editing reads back exactly', () => {
    const angle = fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter((deg) => deg === 0 || Math.abs(deg) > 1e-40);
    fc.assert(
      fc.property(angle, (angleDeg) => {
        expect(parseAngle(formatTypedAngle(angleDeg))).toEqual({ ok: true, value: angleDeg === 0 ? 0 : angleDeg });
      }),
      { numRuns: 2000 },
    );
  });
});
