/**
 * P1 and P2: from the keystroke of an edit to the painted chart, on 8 primaries of 20 pieces, in a real page, against the
 * same keys in a bare page of the same size that shows a single text: what the browser and the machine take by themselves.
 */

import type { Browser, Page } from 'playwright-core';
import { newHeader } from '../../core/index.ts';
import { launchBrowser } from '../browser.ts';
import { launchApp } from '../e2e/app-under-test.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { largeHeader } from './large-header.ts';
import { installRecorder, type PaintSample, type RecorderInPage } from './paint-recorder.ts';
import { openStillPage } from './still-page.ts';

/** What Event Timing leaves untold is below its threshold; counted as the threshold, which is never too little. */
const UNTOLD_MS = 16;
const WARM_UP_ROUNDS = 2;
const ROWS = 20;
const SIZE_COLUMN = 2;
const WINDOW = { width: 1366, height: 768 } as const;

export async function measureKey(page: Page, chord: string): Promise<PaintSample> {
  const key = chord.split('+').at(-1) ?? chord;
  const recorder = await page.evaluateHandle<RecorderInPage>('paintRecorder');
  await recorder.evaluate((inPage, armed) => inPage.arm(armed), key);
  await page.keyboard.press(chord);
  const sample = await recorder.evaluate((inPage) => inPage.sample());
  await recorder.dispose();
  return sample;
}

async function focusSize(page: Page, row: number): Promise<void> {
  await page.locator(`[data-row="${row}"][data-column="${SIZE_COLUMN}"]`).focus();
}

/** One round: a cell retyped, undone, redone, a piece moved down and up, a piece entered and taken back. */
async function editRound(page: Page, round: number): Promise<readonly PaintSample[]> {
  const row = (round * 7) % (ROWS - 1);
  const samples: PaintSample[] = [];
  await focusSize(page, row);
  await page.keyboard.type(String(11 + ((round * 13) % 37)));
  samples.push(await measureKey(page, 'Enter'));
  await focusSize(page, row);
  samples.push(await measureKey(page, 'Control+z'));
  samples.push(await measureKey(page, 'Control+y'));
  samples.push(await measureKey(page, 'Alt+ArrowDown'));
  samples.push(await measureKey(page, 'Alt+ArrowUp'));
  await page.getByRole('combobox', { name: 'Next piece' }).focus();
  await page.keyboard.type(`b${20 + (round % 50)} 90`);
  samples.push(await measureKey(page, 'Enter'));
  samples.push(await measureKey(page, 'Control+z'));
  return samples;
}

async function retypeFirstSize(page: Page): Promise<void> {
  await focusSize(page, 0);
  await page.keyboard.type('11');
  await page.keyboard.press('Enter');
}

/** The chords of a round once more, where each only changes a text. */
const CHORDS = ['Enter', 'Control+z', 'Control+y', 'Alt+ArrowDown', 'Alt+ArrowUp', 'Enter', 'Control+z'] as const;

async function bareRound(page: Page): Promise<readonly PaintSample[]> {
  const samples: PaintSample[] = [];
  for (const chord of CHORDS) samples.push(await measureKey(page, chord));
  return samples;
}

/** A page of the same size with one text in it, which every key changes. */
export async function openBarePage(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: WINDOW });
  await page.setContent('<!doctype html><title>bare</title><p class="counted">0</p>');
  await page.evaluate(() => {
    const counted = document.querySelector('.counted');
    let keys = 0;
    addEventListener('keydown', (event) => {
      event.preventDefault();
      keys += 1;
      if (counted !== null) counted.textContent = String(keys);
    });
  });
  await page.evaluate(installRecorder, '.counted');
  return page;
}

/** The processor paints the page, with no graphics card emulated for that. The stage is drawn all the same, by WebGL in software. */
export const PLAIN_DRAWING = ['--disable-gpu'] as const;

interface Samples {
  readonly program: readonly PaintSample[];
  /** The program's page without the program, where a key makes the same changes. */
  readonly still: readonly PaintSample[];
  readonly bare: readonly PaintSample[];
}

type Pages = Readonly<Record<keyof Samples, Page>>;

/** Rounds in the pages take turns, so that all meet the same moods of the machine. */
async function takeTurns({ program, still, bare }: Pages, rounds: number): Promise<Samples> {
  const taken = { program: [] as PaintSample[], still: [] as PaintSample[], bare: [] as PaintSample[] };
  for (let round = 0; round < rounds + WARM_UP_ROUNDS; round += 1) {
    await program.bringToFront();
    const edits = await editRound(program, round);
    await still.bringToFront();
    const changes = await bareRound(still);
    await bare.bringToFront();
    const keys = await bareRound(bare);
    if (round < WARM_UP_ROUNDS) continue;
    taken.program.push(...edits);
    taken.still.push(...changes);
    taken.bare.push(...keys);
  }
  return taken;
}

async function takeSamples(rounds: number): Promise<Samples> {
  const browser = await launchBrowser({ extraArguments: PLAIN_DRAWING });
  const app = await launchApp({
    host: 'loopback',
    browser,
    prepare: async (backend) => {
      const header = largeHeader(newHeader({ id: 'eight-by-twenty', name: 'Eight by twenty' }));
      await backend.must('importHeader', { header });
    },
  });
  try {
    await app.page.locator('.match-board').waitFor();
    const still = await openStillPage(app, retypeFirstSize);
    await still.evaluate(installRecorder, '.match-board');
    await app.page.bringToFront();
    // The header has moved on in the other page.
    await app.page.reload();
    await app.page.locator('.match-board').waitFor();
    await app.page.evaluate(installRecorder, '.match-board');
    return await takeTurns({ program: app.page, still, bare: await openBarePage(browser) }, rounds);
  } finally {
    await app.end();
    await browser.close();
  }
}

function eventWords(samples: readonly PaintSample[], part: number): string {
  const ms = quantile(
    samples.map(({ eventMs }) => eventMs ?? UNTOLD_MS),
    part,
  );
  return `${ms.toFixed(0)} ms`;
}

/** The program's quantile over the bare page's, by the first task after the changed frame. */
function ratioAt(part: number, { program, still, bare }: Samples): { readonly value: number; readonly words: string } {
  const painted = (samples: readonly PaintSample[]) =>
    quantile(
      samples.map(({ paintedMs }) => paintedMs),
      part,
    );
  const [ownMs, stillMs, bareMs] = [painted(program), painted(still), painted(bare)];
  const words =
    `${ownMs.toFixed(1)} ms over ${bareMs.toFixed(1)} ms, ${program.length} keys each in turn; ` +
    `${stillMs.toFixed(1)} ms (${(stillMs / bareMs).toFixed(2)} times) where the same page changes in the same way with no program behind it; by Event Timing, ` +
    `in steps of 8 ms, ${eventWords(program, part)} and ${eventWords(bare, part)}`;
  return { value: ownMs / bareMs, words };
}

export async function measureChartSpeed(size: RunSize): Promise<readonly Measure[]> {
  const samples = await takeSamples(size === 'long' ? 43 : 10);
  const over = 'keydown to painted chart over keydown to painted text in a bare page';
  return (
    [
      ['P1', 'median', 0.5, 1.5],
      ['P2', '99th percentile', 0.99, 2],
    ] as const
  ).map(([id, which, part, limit]) => {
    const { value, words } = ratioAt(part, samples);
    return { id, what: `${which}, ${over}: ${words}`, value, unit: 'times', goal: `<= ${limit}`, ok: value <= limit };
  });
}
