/** What tuned lengths refuse, and that each formula takes what it says it takes. */

import { describe, expect, it, test } from 'vitest';
import { TUNED_FORMULAS, tunedLength } from '../../../core/gas/tuned-length.ts';
import type { TunedInputs } from '../../../core/header/engine.ts';
import { millimetres } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';

const INPUTS: TunedInputs = {
  rpm: 7000,
  openingDeg: 80,
  travelDeg: 120,
  order: 2,
  soundMs: 560,
  port: millimetres(60),
  cylinder: { value: 500, unit: 'ml' },
};
const lengthOf = (formula: (typeof TUNED_FORMULAS)[number]['id'], change: Partial<TunedInputs> = {}) => {
  const found = tunedLength(formula, { ...INPUTS, ...change });
  if (!found.ok) throw new Error('refused');
  return found.value;
};

describe.each(TUNED_FORMULAS.map((entry) => [entry.id, entry] as const))('%s', (id, entry) => {
  test('changes with every input that it names, and with no other', () => {
    const before = lengthOf(id);
    for (const name of ['rpm', 'openingDeg', 'travelDeg', 'order', 'soundMs', 'port'] as const) {
      const after = lengthOf(id, { [name]: name === 'port' ? millimetres(61) : INPUTS[name] * 1.01 });
      const isChanged = after.lengthMm !== before.lengthMm || after.secondMm !== before.secondMm;
      expect([name, isChanged]).toEqual([name, entry.inputs.includes(name)]);
    }
  });

  test('is counted from the flange face: the port comes off', () => {
    expectWithin(lengthOf(id).lengthMm + 60, lengthOf(id, { port: millimetres(0) }).lengthMm, 1e-9);
  });

  test('names its source, its limits and its variants', () => {
    for (const words of [entry.source, entry.limits, entry.variants]) expect(words.length).toBeGreaterThan(20);
  });
});

it('a port longer than the pipe leaves no length', () => {
  expect(tunedLength('valveTiming', { ...INPUTS, port: millimetres(900) })).toMatchObject({
    ok: false,
    problems: [{ kind: 'invalidValue' }],
  });
  expect(tunedLength('twoStage', { ...INPUTS, rpm: 19_000 })).toMatchObject({ ok: false });
  expect(tunedLength('quarterWave', { ...INPUTS, soundMs: Number.NaN })).toMatchObject({ ok: false });
});
