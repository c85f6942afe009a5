/** Samples: what is drawn for one thing does not hang on what else may be changed. */

import { describe, expect, it } from 'vitest';
import { drawn, inOrderOf } from '../../../core/moves/kinds/samples.ts';
import { readMoveProblem } from '../../../core/moves/problem/move-problem.ts';
import type { Variable } from '../../../core/moves/problem/variable.ts';
import { variablesOf } from '../../../core/moves/problem/variables.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { offHeader } from './freedoms.ts';

const SAMPLES = 2000;

function someVariables(): readonly Variable[] {
  const { header, options } = offHeader(seededRandom(7_368_787));
  const read = readMoveProblem(header, 'own', options);
  if (!read.ok || read.problem.ends === null) throw new Error('The header has no path');
  return variablesOf(read.problem, read.problem.ends);
}

describe('samples of changes', () => {
  const variables = someVariables();

  it('keep their order when one piece less may be changed', () => {
    for (let sample = 0; sample < 50; sample += 1) {
      const fewer = variables.filter(({ pieceIndex }) => pieceIndex !== 1);
      const all = inOrderOf(sample, variables).filter(({ pieceIndex }) => pieceIndex !== 1);
      expect(inOrderOf(sample, fewer)).toEqual(all);
    }
  });

  it('draw values evenly from 0 to 1, and every variable first about as often', () => {
    const tenths = new Array<number>(10).fill(0);
    const first = new Map<Variable, number>();
    for (let sample = 0; sample < SAMPLES; sample += 1) {
      for (const variable of variables) {
        const tenth = Math.floor(10 * drawn(sample, variable, 'value'));
        tenths[tenth] = (tenths[tenth] ?? 0) + 1;
      }
      const one = inOrderOf(sample, variables)[0];
      if (one !== undefined) first.set(one, (first.get(one) ?? 0) + 1);
    }
    const evenly = (SAMPLES * variables.length) / 10;
    for (const count of tenths) expect(Math.abs(count - evenly)).toBeLessThan(0.05 * evenly);
    for (const variable of variables) {
      const share = ((first.get(variable) ?? 0) * variables.length) / SAMPLES;
      expect(share).toBeGreaterThan(0.5);
      expect(share).toBeLessThan(1.6);
    }
  });

  it('are not the same from one sample to the next', () => {
    const [one] = variables;
    if (one === undefined) throw new Error('Nothing to draw');
    const values = Array.from({ length: SAMPLES }, (_, sample) => drawn(sample, one, 'value'));
    expect(new Set(values).size).toBeGreaterThan(0.99 * SAMPLES);
  });
});
