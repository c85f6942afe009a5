/** Figures of pulses in words. */

import { expect, it } from 'vitest';
import {
  collectorSentence,
  collectorTitle,
  degreeWords,
  firesWords,
  lateDegreeWords,
  temperatureUnit,
  timeWords,
} from '../../../renderer/gas/gas-words.ts';

it('times are to the microsecond, with their sign', () => {
  expect([45.357e-6, -16.667e-6, 0.2e-6].map(timeWords)).toEqual(['+45 µs', '−17 µs', '0 µs']);
});

it('degrees are to a tenth, with their sign', () => {
  expect([1.6329, -0.8, 0.04].map(lateDegreeWords)).toEqual(['+1.6°', '−0.8°', '0°']);
});

it('a collector is said in its order, with both spacings', () => {
  const pulse = (name: string, firesDeg: number) => ({
    primaryId: name,
    name,
    cylinder: 1,
    lengthMm: 800,
    firesDeg,
    lateDeg: 0,
    lateS: 0,
  });
  const pulses = [pulse('1', 0), pulse('4', 360)];
  expect(
    collectorSentence({
      collectorId: 'c',
      name: 'C',
      pulses,
      equalSpacingsDeg: [360, 360],
      builtSpacingsDeg: [361.6329, 358.3671],
    }),
  ).toBe('Primary 1, Primary 4. Apart by 360° each with equal lengths, 361.6° 358.4° as built.');
});

it('primaries without a collector are said to be, or are all there are', () => {
  const none = { collectorId: null, name: null, pulses: [], equalSpacingsDeg: [], builtSpacingsDeg: [] };
  expect([collectorTitle(none, 1), collectorTitle(none, 2)]).toEqual(['All primaries', 'Without a collector']);
  expect(collectorTitle({ ...none, collectorId: 'c', name: 'Left' }, 2)).toBe('Left');
});

it('crank degrees are to a tenth where they do not come out even, and kelvins have no degree sign', () => {
  expect([720 / 7, (2 * 720) / 7, 180].map(degreeWords)).toEqual(['102.9°', '205.7°', '180°']);
  const unitOf = (unit: 'C' | 'F' | 'K') => temperatureUnit({ value: 900, unit });
  expect([unitOf('C'), unitOf('F'), unitOf('K')]).toEqual(['°C', '°F', 'K']);
});

it('an engine that fires evenly says how often, one that does not says each gap', () => {
  expect(firesWords({ firingOrder: [1, 3, 4, 2] })).toBe('Fires every 180°.');
  expect(firesWords({ firingOrder: [1, 2, 3, 4, 5, 6, 7] })).toBe('Fires every 102.9°.');
  expect(firesWords({ firingOrder: [1, 2], firingIntervalsDeg: [315, 405] })).toBe('Fires 315° 405° apart.');
});
