/** Finished headers of eight primaries as lines of a file, made without finishing each. */

import { demoHeader } from '../core/header/demo-header.ts';
import type { Header } from '../core/header/header.ts';
import { figuresOf } from '../electron/store/archive/archive.ts';
import { writeFinishedLine } from '../electron/store/finished/line.ts';
import { sealOf } from '../electron/store/finished/record.ts';

/** The demo's primaries, and each of them once more under ids of its own. */
export function eightPrimaries(id: string, name: string): Header {
  const demo = demoHeader(id);
  const again = demo.primaries.map((primary) => ({
    ...primary,
    id: `${primary.id}-b`,
    name: `${primary.name}b`,
    inletId: null,
    pieces: primary.pieces.map((piece) => ({ ...piece, id: `${piece.id}-b` })),
  }));
  return { ...demo, name, state: 'finished', primaries: [...demo.primaries, ...again] };
}

/** One line, without its end. All differ by their name and day. */
export function finishedLine(at: number, prefix = 'Header'): string {
  const header = eightPrimaries(`${prefix.toLowerCase()}-${at}`, `${prefix} ${at}`);
  const finishedAt = new Date(Date.UTC(2020, 0, 1) + at * 3_600_000);
  const record = { header, figures: figuresOf(header, { finishedAt, jointsOpened: at % 9 }), plans: [], pictures: [] };
  const line = writeFinishedLine({ id: header.id, seal: sealOf(record), record, files: [] });
  if (!line.ok) throw new Error(JSON.stringify(line.problems));
  return line.value;
}
