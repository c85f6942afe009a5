/** Ids for new things, from the platform's secure random source. */

import { newId } from '../../core/index.ts';

/** Uniform in [0, 1), from 32 random bits. */
export function secureRandom(): number {
  const [bits = 0] = crypto.getRandomValues(new Uint32Array(1));
  return bits / 2 ** 32;
}

export function freshId(): string {
  return newId(secureRandom);
}
