/** Random numbers that nobody can foretell, as the hosts hand them to what makes ids. */

import { randomBytes } from 'node:crypto';

const BYTE_COUNT = 6;

/** A number in [0, 1) from the system's own source, with 48 random bits. */
export function secureRandom(): number {
  return randomBytes(BYTE_COUNT).readUIntBE(0, BYTE_COUNT) / 2 ** (8 * BYTE_COUNT);
}
