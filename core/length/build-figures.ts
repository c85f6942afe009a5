/** What is worth keeping of a finished header to find it again: its tube and its lengths, as they were built. */

import type { Header, Piece, Tube } from '../header/header.ts';
import { tubeOf } from '../header/header.ts';
import { mmOf } from '../units/length.ts';
import { matchHeader } from './match-header.ts';

export interface BuildFigures {
  /** That most primaries are made of. */
  readonly tube: Tube;
  /** Zero where a header has no pieces, and so no lengths. */
  readonly targetMm: number;
  readonly meanMm: number;
  readonly spreadMm: number;
  /** In the order of the header, each with its pieces from the port on. */
  readonly primaries: readonly {
    readonly name: string;
    readonly lengthMm: number;
    readonly pieces: readonly { readonly kind: Piece['kind']; readonly lengthMm: number }[];
  }[];
}

/** Every primary counts as whole, as in a finished header. Linear in the number of pieces. */
export function buildFigures(header: Header): BuildFigures {
  const report = matchHeader({ ...header, state: 'finished' });
  const primaries = header.primaries.map((primary, index) => ({
    name: primary.name,
    lengthMm: report.primaries[index]?.lengthMm ?? 0,
    pieces: primary.pieces.map((piece, place) => ({
      kind: piece.kind,
      lengthMm: report.primaries[index]?.pieceLengthsMm[place] ?? 0,
    })),
  }));
  const { targetMm, meanMm, spreadMm } = report;
  return { tube: mainTube(header), targetMm: targetMm ?? 0, meanMm: meanMm ?? 0, spreadMm: spreadMm ?? 0, primaries };
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
