/** Temperatures, plain numbers and volumes as they are typed, and what stands until something is. */

import { describe, expect, it, test } from 'vitest';
import { parseVolume, volumeText } from '../../../core/asbuilt/volume-text.ts';
import { parsePlainNumber, parseTemperature } from '../../../core/gas/read-gas.ts';
import { tunedTarget } from '../../../core/gas/tuned-target.ts';
import { engineOf, firstTunedInputs, soundOf } from '../../../core/gas/usual-engine.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { expectWithin } from '../../tolerance.ts';

const readOf = <Value>(read: { readonly ok: true; readonly value: Value } | { readonly ok: false }) =>
  read.ok ? read.value : 'refused';

test.each([
  ['650', { value: 650, unit: 'C' }],
  ['650 °C', { value: 650, unit: 'C' }],
  ['1200F', { value: 1200, unit: 'F' }],
  ['923.15 k', { value: 923.15, unit: 'K' }],
  ['-10', { value: -10, unit: 'C' }],
  ['hot', 'refused'],
  ['', 'refused'],
  ['650 R', 'refused'],
])('temperature %j', (text, wanted) => {
  expect(readOf(parseTemperature(text, 'C'))).toEqual(wanted);
});

test.each([
  ['6000', 6000],
  [' 1.3 ', 1.3],
  ['1,3', 'refused'],
  ['-1', 'refused'],
  ['1e9', 'refused'],
])('number %j', (text, wanted) => {
  expect(readOf(parsePlainNumber(text, 'rpm'))).toEqual(wanted);
});

test.each([
  ['1250', { value: 1250, unit: 'ml' }],
  ['1250 cc', { value: 1250, unit: 'ml' }],
  ['76 in3', { value: 76, unit: 'in3' }],
  ['76 cu in', { value: 76, unit: 'in3' }],
  ['a jug', 'refused'],
  ['2 pints', 'refused'],
])('volume %j', (text, wanted) => {
  const read = parseVolume(text, 'ml');
  expect(readOf(read)).toEqual(wanted);
  if (read.ok) expect(parseVolume(volumeText(read.value, 'ml'), 'ml')).toEqual(read);
});

describe('until something is said', () => {
  it('the engine has as many cylinders as the header has primaries', () => {
    expect(engineOf(demoHeader('demo')).firingOrder).toEqual([1, 3, 4, 2]);
    const blank = newHeader({ id: 'h', name: 'H' });
    expect(engineOf(blank).firingOrder).toEqual([1]);
  });

  it('its gas is burnt petrol at 650 C: sqrt(1.3 x 8.314462618 x 923.15 / 0.0289) m/s', () => {
    expectWithin(soundOf(engineOf(demoHeader('demo'))), Math.sqrt((1.3 * 8.314462618 * 923.15) / 0.0289), 1e-9);
  });
});

it('a tuned target is a typed one to the fineness shown, and says where it is from', () => {
  const inputs = { ...firstTunedInputs(engineOf(demoHeader('demo'))), rpm: 7000, openingDeg: 80 };
  const tuned = { formula: 'valveTiming', inputs } as const;
  // 28.571 in from the valve less 3 in of port: 25.571, or 25 9/16.
  expect(tunedTarget(tuned, { kind: 'fraction', per: 16 })).toEqual({
    ok: true,
    value: { kind: 'typed', length: { value: 25.5625, unit: 'in' }, tuned },
  });
});
