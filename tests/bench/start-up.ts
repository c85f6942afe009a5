/**
 * P8: from starting the program, with a thousand headers kept, to the first painted frame with data in it, against a bare
 * Node process that opens a database and serves a static page with one list.
 */

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import type { Browser } from 'playwright-core';
import { demoHeader } from '../../core/header/demo-header.ts';
import { buildIfStale } from '../../electron/build/bundles.ts';
import { launchBrowser } from '../browser.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { openBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const GOAL_RATIO = 2.5;
const HEADERS = 1000;

async function fill(folder: string, count: number): Promise<void> {
  const backend = openBackend(folder, seededRandom(8));
  for (let index = 0; index < count; index += 1) {
    const header = { ...demoHeader(`kept-${index}`), name: `Kept header ${index + 1}` };
    await backend.must('importHeader', { header });
  }
  await backend.close();
}

/** What is started, and the arguments that Node is given for it. */
interface Startable {
  readonly name: string;
  readonly args: readonly string[];
}

/** Starts it, and settles with the address that it prints. */
async function startProgram({
  name,
  args,
}: Startable): Promise<{ readonly child: ChildProcess; readonly address: string }> {
  const child = spawn(process.execPath, [...args], { cwd: ROOT, stdio: ['ignore', 'pipe', 'inherit'] });
  let output = '';
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (chunk: Buffer) => {
      output += chunk.toString('utf8');
      const found = /http:\/\/127\.0\.0\.1:\d+\/#token=\S+/.exec(output)?.[0];
      if (found !== undefined) resolve(found);
    });
    child.once('exit', (code) => reject(new Error(`${name} ended (${code}) without an address: ${output}`)));
  });
  return { child, address };
}

/**
 * Runs in the page before its own scripts: keeps the wall time after the first frame that shows the selector. With a
 * hash, it goes there as soon as the page has taken its token out of the address.
 */
function watchFirstPaint({ selector, hash }: Place): void {
  const firstPaint = new Promise<number>((resolve) => {
    let isThere = hash === '';
    const look = () => {
      if (!isThere && location.hash === '' && document.querySelector('#screen') !== null) {
        isThere = true;
        location.hash = hash;
      }
      if (document.querySelector(selector) === null) {
        requestAnimationFrame(look);
        return;
      }
      const channel = new MessageChannel();
      channel.port1.onmessage = () => resolve(performance.timeOrigin + performance.now());
      channel.port2.postMessage(null);
    };
    requestAnimationFrame(look);
  });
  Object.assign(globalThis, { firstPaint });
}

interface Place {
  readonly name: string;
  readonly hash: string;
  /** Shown only when there is data. */
  readonly selector: string;
}

const PLACES = {
  P8: { name: 'the last header on the bench', hash: '', selector: '.match-board [data-primary]' },
  'P8 list': { name: 'the list of all headers', hash: '#/headers', selector: '.header-row' },
} as const satisfies Record<string, Place>;

/** Milliseconds from before the start of the process; the browser is running already, as a desktop's is. */
async function oneStart(browser: Browser, started: Startable, place: Place): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
  const page = await context.newPage();
  await page.addInitScript(watchFirstPaint, place);
  const startedAt = performance.timeOrigin + performance.now();
  const { child, address } = await startProgram(started);
  const ended = new Promise((resolve) => child.once('exit', resolve));
  try {
    await page.goto(address, { waitUntil: 'commit' });
    return (await page.evaluate<number>('firstPaint')) - startedAt;
  } finally {
    await context.close();
    child.kill('SIGTERM');
    await ended;
  }
}

/** A database of as many names as there are headers. */
function bareDatabase(folder: string): string {
  const file = join(folder, 'bare.sqlite');
  const db = new Database(file);
  db.exec('CREATE TABLE names (id INTEGER PRIMARY KEY, name TEXT NOT NULL)');
  const insert = db.prepare('INSERT INTO names (name) VALUES (?)');
  db.transaction(() => {
    for (let index = 0; index < HEADERS; index += 1) insert.run(`Kept header ${index + 1}`);
  })();
  db.close();
  return file;
}

const BARE_PLACE: Place = { name: 'the bare list', hash: '', selector: '.bare-row' };

interface Compared {
  readonly program: Startable;
  readonly bare: Startable;
  readonly repeats: number;
}

/** Medians of starts that take turns, in milliseconds. The first of each finds nothing in the system's file cache and is left out. */
async function medianStarts(browser: Browser, { program, bare, repeats }: Compared, place: Place) {
  const own: number[] = [];
  const least: number[] = [];
  for (let run = 0; run <= repeats; run += 1) {
    least.push(await oneStart(browser, bare, BARE_PLACE));
    own.push(await oneStart(browser, program, place));
  }
  return { ownMs: quantile(own.slice(1), 0.5), bareMs: quantile(least.slice(1), 0.5) };
}

export async function measureStartUp(size: RunSize): Promise<readonly Measure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-p8-'));
  const data = join(folder, 'data');
  const browser = await launchBrowser();
  const repeats = size === 'long' ? 7 : 3;
  try {
    await buildIfStale(ROOT, ['renderer']);
    await fill(data, HEADERS);
    const program = { name: 'the program', args: ['electron/start.mjs', '--browser', '--no-open', `--data=${data}`] };
    const bare = { name: 'the bare program', args: ['tests/bench/bare-program.ts', bareDatabase(folder)] };
    const measures: Measure[] = [];
    for (const [id, place] of Object.entries(PLACES)) {
      const { ownMs, bareMs } = await medianStarts(browser, { program, bare, repeats }, place);
      const value = ownMs / bareMs;
      const what =
        `process start to first painted frame of ${place.name}, ${HEADERS} headers kept, ${ownMs.toFixed(0)} ms, over a bare Node ` +
        `process that opens a database and serves one list, ${bareMs.toFixed(0)} ms; Chromium running, medians of ${repeats} in turn`;
      measures.push({ id, what, value, unit: 'times', goal: `<= ${GOAL_RATIO}`, ok: value <= GOAL_RATIO });
    }
    return measures;
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
}
