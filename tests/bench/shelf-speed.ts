/** P10: a shelf of 20,000 rows and 200,000 movements, listed, filtered and offered from while one types. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import type { StockItem } from '../../core/stock/stock-item.ts';
import { inches } from '../../core/units/length.ts';
import { inShelfOrder, type Shown, shownRows } from '../../renderer/shelf/shelf-search.ts';
import { limitHere } from '../cpu-time.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { openBackend, type TestBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';

const GOAL_MS = 50;
export const SHELF_ROWS = 20_000;
/** Steps after the first, each with a movement of every row. */
const ROUNDS = 9;
const ROWS_A_STEP = 5000;
const SIZES = [1.5, 1.625, 1.75, 1.875, 2, 2.25, 2.5, 3];

export function shelfRow(at: number): StockItem {
  const od = SIZES[at % SIZES.length] ?? 2;
  const tube = { material: at % 3 === 0 ? 'mild steel' : '304 stainless', od: inches(od), wall: inches(0.065) };
  const common = { ...tube, id: `row-${at}`, count: 20, note: at % 7 === 0 ? `rack ${at % 40}` : '', least: at % 30 };
  if (at % 5 === 0) return { ...common, kind: 'straight', length: inches(12 + (at % 60)) };
  const legs = [inches(4), inches(4)] as const;
  return { ...common, kind: 'bend', clr: inches(od * 1.5 + (at % 9) / 8), angleDeg: 1 + (at % 180), legs };
}

async function fill(backend: TestBackend): Promise<void> {
  const starts = Array.from({ length: SHELF_ROWS / ROWS_A_STEP }, (_, step) => step * ROWS_A_STEP);
  const each = (start: number) => Array.from({ length: ROWS_A_STEP }, (_, at) => start + at);
  for (const start of starts)
    await backend.must('changeShelf', {
      changes: each(start).map((at) => ({ kind: 'add', item: shelfRow(at) })),
      because: 'First count',
    });
  for (let round = 0; round < ROUNDS; round += 1)
    for (const start of starts)
      await backend.must('changeShelf', {
        changes: each(start).map((at) => ({ kind: 'move', itemId: `row-${at}`, pieces: 1, reason: 'cut' })),
        because: 'Cut',
      });
}

const LOOKS: readonly (readonly [Shown, string])[] = [
  ['all', ''],
  ['all', '3'],
  ['bends', '304 90'],
  ['low', ''],
  ['straights', 'mild rack 2'],
];

/** Milliseconds on the processor of each of `count` runs, which other programs beside it do not lengthen; `before` is not counted. */
async function timed(
  count: number,
  act: (turn: number) => unknown,
  before: (turn: number) => unknown = () => null,
): Promise<readonly number[]> {
  const times: number[] = [];
  for (let turn = 0; turn < count; turn += 1) {
    await before(turn);
    const start = process.threadCpuUsage();
    await act(turn);
    const { user, system } = process.threadCpuUsage(start);
    times.push((user + system) / 1000);
  }
  return times;
}

function measure(id: string, what: string, times: readonly number[]): Measure {
  const limit = limitHere(GOAL_MS);
  const value = quantile(times, 0.99);
  const words = `${what}; 99th percentile of ${times.length}, median ${quantile(times, 0.5).toFixed(2)} ms`;
  return { id, what: words, value, unit: 'ms', goal: `<= ${limit.toFixed(0)}`, ok: value <= limit };
}

export async function measureShelf(size: RunSize): Promise<readonly Measure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-shelf-speed-'));
  const runs = size === 'long' ? 1000 : 200;
  try {
    const writer = openBackend(join(folder, 'data'), seededRandom(10));
    await fill(writer);
    await writer.close();
    const backend = openBackend(join(folder, 'data'), seededRandom(11));
    await backend.must('start', {});
    const [first = Number.NaN] = await timed(1, () => backend.must('listStock', {}));
    // Every other list comes after a change, as it does when one works on the shelf.
    const change = async (turn: number) => {
      if (turn % 2 === 1) return;
      const changes = [{ kind: 'move', itemId: `row-${turn}`, pieces: 1, reason: 'received' } as const];
      await backend.must('changeShelf', { changes, because: '' });
    };
    const lists = await timed(runs, () => backend.must('listStock', {}), change);
    const tube = { od: inches(1.75), wall: inches(0.065) };
    const offers = await timed(runs, () => backend.must('listStock', { sizes: [tube] }));
    const { stock } = await backend.must('listStock', {});
    const inOrder = inShelfOrder(stock);
    const filters = await timed(runs, (turn) => {
      const [shown, words] = LOOKS[turn % LOOKS.length] ?? (['all', ''] as const);
      return shownRows(inOrder, shown, words);
    });
    await backend.close();
    return [
      measure(
        'P10',
        `list of ${SHELF_ROWS} rows over ${SHELF_ROWS * (ROUNDS + 1)} movements, a change before every other`,
        lists,
      ),
      measure('P10 filter', 'filter by kind and words at a keystroke', filters),
      measure('P10 offers', 'rows of one size of tube, as the entry line offers from', offers),
      {
        id: 'P10 first',
        what: 'the first list after opening, with every movement read and its checksum looked at',
        value: first,
        unit: 'ms',
        goal: 'stated',
        ok: true,
      },
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}
