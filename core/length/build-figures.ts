/** What is worth keeping of a finished header to find it again: its tube and its lengths, as they were built. */

import type { Header, Tube } from '../header/header.ts';
import { tubeOf } from '../header/header.ts';
import { mmOf } from '../units/length.ts';
import { matchHeader } from './match-header.ts';

export interface BuildFigures {
  /** That most primaries are made of. */
  readonly tube: Tube;
  readonly primaryCount: number;
  /** Zero where a header has no pieces, and so no lengths. */
  readonly targetMm: number;
  readonly meanMm: number;
  readonly spreadMm: number;
}

/** Every primary counts as whole, as in a finished header. Linear in the number of pieces. */
export function buildFigures(header: Header): BuildFigures {
  const { targetMm, meanMm, spreadMm } = matchHeader({ ...header, state: 'finished' });
  return {
    tube: mainTube(header),
    primaryCount: header.primaries.length,
    targetMm: targetMm ?? 0,
    meanMm: meanMm ?? 0,
    spreadMm: spreadMm ?? 0,
  };
}

/** The tube that most primaries are made of; the first such where several are. */
function mainTube(header: Header): Tube {
  const counts = new Map<string, { readonly tube: Tube; count: number }>();
  for (const primary of header.primaries) {
    const tube = tubeOf(header, primary);
    const key = `${tube.material}|${mmOf(tube.od)}|${mmOf(tube.wall)}`;
    const entry = counts.get(key) ?? { tube, count: 0 };
    entry.count += 1;
    counts.set(key, entry);
  }
  const [first, ...others] = counts.values();
  if (!first) return header.settings.tube;
  return others.reduce((best, entry) => (entry.count > best.count ? entry : best), first).tube;
}
