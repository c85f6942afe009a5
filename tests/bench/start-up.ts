/** P8: from starting the program, with a thousand headers kept, to the first painted frame with data in it. */

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { demoHeader } from '../../core/header/demo-header.ts';
import { buildIfStale } from '../../electron/build/bundles.ts';
import { launchBrowser } from '../browser.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { openBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const GOAL_MS = 1000;

async function fill(folder: string, count: number): Promise<void> {
  const backend = openBackend(folder, seededRandom(8));
  for (let index = 0; index < count; index += 1) {
    const header = { ...demoHeader(`kept-${index}`), name: `Kept header ${index + 1}` };
    await backend.must('importHeader', { header });
  }
  await backend.close();
}

/** Starts the program as `npm start` does, and settles with the address that it prints. */
async function startProgram(folder: string): Promise<{ readonly child: ChildProcess; readonly address: string }> {
  const child = spawn(process.execPath, ['electron/start.mjs', '--browser', `--data=${folder}`], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let output = '';
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (chunk: Buffer) => {
      output += chunk.toString('utf8');
      const found = /http:\/\/127\.0\.0\.1:\d+\/#token=\S+/.exec(output)?.[0];
      if (found !== undefined) resolve(found);
    });
    child.once('exit', (code) => reject(new Error(`the program ended (${code}) without an address: ${output}`)));
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

const PLACES: readonly Place[] = [
  { name: 'the last header on the bench', hash: '', selector: '.match-chart [data-primary]' },
  { name: 'the list of all headers', hash: '#/headers', selector: '.header-row' },
];

/** Milliseconds from before the start of the process; the browser is running already, as a desktop's is. */
async function oneStart(browser: Browser, folder: string, place: Place): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
  const page = await context.newPage();
  await page.addInitScript(watchFirstPaint, place);
  const startedAt = performance.timeOrigin + performance.now();
  const { child, address } = await startProgram(folder);
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

export async function measureStartUp(size: RunSize): Promise<readonly Measure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-p8-'));
  const browser = await launchBrowser();
  const count = 1000;
  const repeats = size === 'long' ? 7 : 3;
  try {
    await buildIfStale(ROOT, ['renderer']);
    await fill(folder, count);
    const measures: Measure[] = [];
    for (const place of PLACES) {
      const samples: number[] = [];
      for (let run = 0; run <= repeats; run += 1) samples.push(await oneStart(browser, folder, place));
      // The first start finds nothing in the system's file cache; it is left out, as a warm-up.
      const value = quantile(samples.slice(1), 0.5);
      const what = `process start to first painted frame of ${place.name}, ${count} headers kept, Chromium running; median of ${repeats}`;
      const id = measures.length === 0 ? 'P8' : 'P8 list';
      measures.push({ id, what, value, unit: 'ms', goal: `<= ${GOAL_MS}`, ok: value <= GOAL_MS });
    }
    return measures;
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
}
