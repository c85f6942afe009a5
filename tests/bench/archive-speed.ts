/** P7: an archive of 10,000 finished headers of 8 primaries, searched as one types, put in order of likeness, and opened from. */

import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { EVERYTHING } from '../archive-asked.ts';
import { launchBrowser } from '../browser.ts';
import { limitHere } from '../cpu-time.ts';
import { launchApp } from '../e2e/app-under-test.ts';
import { openPlace, PLACES } from '../e2e/page-parts.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { openBackend, type TestBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';
import { fillArchive } from './archive-fill.ts';
import { measureKey, openBarePage, PLAIN_DRAWING } from './chart-speed.ts';
import { installRecorder } from './paint-recorder.ts';

const SEARCH_GOAL_MS = 30;
const OPEN_GOAL_MS = 100;
const HEADERS = 10_000;
/** As many as the page asks for at a key. */
const ROWS = 16;

/** What stands in the search field after each key of some searches: from everything down to a few. */
const TYPED = ['circuit long', 'job 123', 'titanium under', 'xylophone', '304 left 77', 'hill'].flatMap((words) =>
  Array.from(words, (_, at) => words.slice(0, at + 1)),
);

type Asked = Partial<typeof EVERYTHING>;

const FIGURES: readonly Asked[] = [
  { odMm: { lowMm: 44, highMm: 45 } },
  { primaryCount: 8, spreadMm: { lowMm: 0, highMm: 3.2 } },
  { targetMm: { lowMm: 850, highMm: 900 }, material: 'mild' },
  { finishedAt: { low: Date.UTC(2026, 3, 1), high: Date.UTC(2026, 6, 1) } },
];

/** Milliseconds on the processor of each call, which other programs beside it do not lengthen. */
async function timed(count: number, act: (turn: number) => Promise<unknown>): Promise<readonly number[]> {
  const times: number[] = [];
  for (let turn = 0; turn < count; turn += 1) {
    const start = process.threadCpuUsage();
    await act(turn);
    const { user, system } = process.threadCpuUsage(start);
    times.push((user + system) / 1000);
  }
  return times;
}

function measure(id: string, what: string, times: readonly number[], goalMs: number): Measure {
  const limit = limitHere(goalMs);
  const value = quantile(times, 0.99);
  const words = `${what}; 99th percentile of ${times.length}, median ${quantile(times, 0.5).toFixed(1)} ms, limit ${goalMs} ms at the speed that it is written for`;
  return { id, what: words, value, unit: 'ms', goal: `<= ${limit.toFixed(0)}`, ok: value <= limit };
}

async function measureCalls(backend: TestBackend, size: RunSize): Promise<readonly Measure[]> {
  const runs = size === 'long' ? 1000 : 200;
  const search = (asked: Asked) => backend.must('searchArchive', { ...EVERYTHING, most: ROWS, ...asked });
  const { count } = await search({});
  if (count !== HEADERS) throw new Error(`the archive holds ${count} headers`);
  const words = await timed(runs, (turn) => search({ words: TYPED[turn % TYPED.length] ?? '' }));
  const figures = await timed(runs, (turn) => search(FIGURES[turn % FIGURES.length] ?? {}));
  const like = await timed(runs, (turn) => search({ likeId: `archived-${(turn * 37) % count}` }));
  const opened = await timed(runs, (turn) =>
    backend.must('openHeader', { headerId: `archived-${(turn * 61) % count}` }),
  );
  const [charts = Number.NaN] = await timed(1, () => backend.must('readShopFigures', {}));
  return [
    measure('P7', `search of ${count} finished headers by words, a letter more at each key`, words, SEARCH_GOAL_MS),
    measure('P7 figures', 'search by tube, number, target, spread or days', figures, SEARCH_GOAL_MS),
    measure('P7 like', 'the first page in order of likeness to another', like, SEARCH_GOAL_MS),
    measure('P7 open', 'opening a finished header of 8 primaries', opened, OPEN_GOAL_MS),
    {
      id: 'P7 charts',
      what: "all that the shop's charts are drawn from",
      value: charts,
      unit: 'ms',
      goal: 'stated',
      ok: true,
    },
  ];
}

/** The digits of a job's number, and back: each key changes how many are found, so that there is something to wait for. */
function chordsOf(round: number): readonly string[] {
  const digits = Array.from(String(1234 + ((round * 577) % 8000)));
  return [...digits, ...digits.map(() => 'Backspace')];
}

/** The same keys in the search and in a bare page that shows a single text, in turn: what the browser and the machine take by themselves is not the search's. */
async function measurePainted(folder: string, size: RunSize): Promise<Measure> {
  const rounds = size === 'long' ? 40 : 8;
  const browser = await launchBrowser({ extraArguments: PLAIN_DRAWING });
  const app = await launchApp({ host: 'loopback', browser, folder });
  try {
    const { page } = app;
    await openPlace(page, PLACES.archive);
    await page.locator('.archive-picture svg').first().waitFor();
    await page.evaluate(installRecorder, '.archive-said');
    const bare = await openBarePage(browser);
    const taken = { own: [] as number[], bare: [] as number[] };
    for (let round = 0; round < rounds; round += 1) {
      await page.bringToFront();
      await page.getByLabel('Search name, note, material').focus();
      for (const chord of chordsOf(round)) taken.own.push((await measureKey(page, chord)).paintedMs);
      await bare.bringToFront();
      for (const chord of chordsOf(round)) taken.bare.push((await measureKey(bare, chord)).paintedMs);
    }
    return paintedMeasure(taken);
  } finally {
    await app.end();
    await browser.close();
  }
}

function paintedMeasure({ own, bare }: { readonly own: readonly number[]; readonly bare: readonly number[] }): Measure {
  const [value, bareMs] = [quantile(own, 0.99), quantile(bare, 0.99)];
  const limit = bareMs + limitHere(SEARCH_GOAL_MS);
  const medians = `medians ${quantile(own, 0.5).toFixed(0)} and ${quantile(bare, 0.5).toFixed(0)} ms`;
  const what = `99th percentile of ${own.length} keys, from the key in the search to the painted list; the limit is ${SEARCH_GOAL_MS} ms, at the speed that it is written for, over the ${bareMs.toFixed(0)} ms that a text takes in a bare page; ${medians}`;
  return { id: 'P7 paint', what, value, unit: 'ms', goal: `<= ${limit.toFixed(0)}`, ok: value <= limit };
}

export async function measureArchive(size: RunSize): Promise<readonly Measure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-archive-speed-'));
  const data = join(folder, 'data');
  try {
    await fillArchive(data, HEADERS);
    const bytes = statSync(join(data, 'evenrun.sqlite')).size / HEADERS;
    const backend = openBackend(data, seededRandom(11));
    await backend.must('start', {});
    const calls = await measureCalls(backend, size);
    await backend.close();
    const painted = await measurePainted(data, size);
    const limit = 20_000;
    return [
      ...calls,
      painted,
      {
        id: 'P7b',
        what: 'database over finished headers of 8 primaries and 64 pieces',
        value: bytes / 1000,
        unit: 'kB',
        goal: '< 20',
        ok: bytes < limit,
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
