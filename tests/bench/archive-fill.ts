/** A shop's archive of thousands of finished headers, put into a database without finishing each by hand. */

import { join } from 'node:path';
import Database from 'better-sqlite3';
import { demoHeader } from '../../core/header/demo-header.ts';
import type { Header } from '../../core/header/header.ts';
import { inches } from '../../core/units/length.ts';
import { freeze } from '../../electron/store/finished/freeze.ts';
import { keepHeader } from '../../electron/store/header/keep-header.ts';
import { openTables } from '../../electron/store/tables.ts';
import { openBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';

const KINDS = ['Circuit', 'Hill', 'Rally', 'Dune', 'Ice', 'Sprint', 'Oval', 'Marine', 'Tow', 'Barn'] as const;
const SHAPES = ['eight', 'long bay', 'short stack', 'over the rail', 'under the shaft', 'twin plug'] as const;
const MATERIALS = ['304 stainless', '321 stainless', 'mild steel', 'titanium'] as const;
const SIZES_IN = [1.5, 1.625, 1.75, 1.875, 2, 2.125] as const;
const HOUR_MS = 3600 * 1000;
const HEADERS_A_TRANSACTION = 500;

/** Number `at` of the archive: both banks of the demo header, 8 primaries, with a name, tube and length of its own. */
export function archivedHeader(at: number): Header {
  const demo = demoHeader(`archived-${at}`);
  const material = MATERIALS[at % MATERIALS.length] ?? MATERIALS[0];
  const od = inches(SIZES_IN[at % SIZES_IN.length] ?? 2);
  const bank = (side: 'a' | 'b') =>
    demo.primaries.map((primary, place) => ({
      ...primary,
      id: `${side}${place}`,
      name: String(place + (side === 'a' ? 1 : 5)),
      inletId: null,
      pieces: primary.pieces.map((piece, index) => ({
        ...piece,
        id: `${side}${place}-${index}`,
        state: 'welded' as const,
        ...(index === 0 && piece.kind === 'straight' ? { length: inches(1 + ((at + place) % 97) / 16) } : {}),
      })),
    }));
  return {
    ...demo,
    name: `${KINDS[at % KINDS.length]} ${SHAPES[at % SHAPES.length]} ${at}`,
    note: `Job ${at}, on the ${at % 2 === 0 ? 'left' : 'right'} side, flange kept.`,
    state: 'finished',
    settings: { ...demo.settings, target: { kind: 'longest' }, tube: { ...demo.settings.tube, material, od } },
    primaries: [...bank('a'), ...bank('b')],
    collectors: [],
  };
}

/** Puts so many into a new database in the folder. */
export async function fillArchive(folder: string, count: number): Promise<void> {
  const backend = openBackend(folder, seededRandom(7));
  await backend.must('start', {});
  await backend.close();
  const db = new Database(join(folder, 'evenrun.sqlite'));
  try {
    db.pragma('synchronous = OFF');
    const tables = openTables(db);
    const first = new Date('2026-01-01T08:00:00Z').getTime();
    const put = db.transaction((from: number, to: number) => {
      for (let at = from; at < to; at += 1) {
        const finishedAt = new Date(first + at * HOUR_MS);
        const header = archivedHeader(at);
        keepHeader(tables, header, { stepId: `archived-${at}-made`, changedAt: finishedAt });
        freeze(tables, header, finishedAt);
      }
    });
    for (let from = 0; from < count; from += HEADERS_A_TRANSACTION)
      put(from, Math.min(count, from + HEADERS_A_TRANSACTION));
  } finally {
    db.close();
  }
}
