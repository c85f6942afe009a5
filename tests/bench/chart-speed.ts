/** P1 and P2: from the keystroke of an edit to the painted chart, on 8 primaries of 20 pieces, in a real page. */

import type { Page } from 'playwright-core';
import { newHeader } from '../../core/header/new-header.ts';
import { launchBrowser } from '../browser.ts';
import { launchApp } from '../e2e/app-under-test.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { largeHeader } from './large-header.ts';
import { installRecorder, type PaintSample, type RecorderInPage } from './paint-recorder.ts';

const FRAME_MS = 1000 / 60;
/** What Event Timing leaves untold is below its threshold; counted as the threshold, which is never too little. */
const UNTOLD_MS = 16;
const WARM_UP = 14;
const ROWS = 20;
const SIZE_COLUMN = 2;

async function measureKey(page: Page, chord: string): Promise<PaintSample> {
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
async function oneRound(page: Page, round: number): Promise<readonly PaintSample[]> {
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

/**
 * Without WebGL in software, which other tests want and which would draw every frame of the page through an emulated
 * graphics card: what is measured is the program, not the emulation.
 */
const PLAIN_DRAWING = ['--disable-gpu'] as const;

async function takeSamples(count: number): Promise<readonly PaintSample[]> {
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
    const { page } = app;
    await page.locator('.match-chart').waitFor();
    await page.evaluate(installRecorder);
    const samples: PaintSample[] = [];
    for (let round = 0; samples.length < count + WARM_UP; round += 1) samples.push(...(await oneRound(page, round)));
    return samples.slice(WARM_UP, WARM_UP + count);
  } finally {
    await app.end();
    await browser.close();
  }
}

export async function measureChartSpeed(size: RunSize): Promise<readonly Measure[]> {
  const samples = await takeSamples(size === 'long' ? 300 : 70);
  const byEvent = samples.map(({ eventMs }) => eventMs ?? UNTOLD_MS);
  const byFrame = samples.map(({ paintedMs }) => paintedMs);
  const told = samples.filter(({ eventMs }) => eventMs !== null).length;
  const events =
    `keydown to next presented frame by Event Timing (steps of 8 ms; ${samples.length - told} of ${samples.length} ` +
    'edits were under its threshold and count as 16 ms)';
  const frames = 'keydown to the first task after the frame in which the chart had changed';
  const one = (id: string, what: string, value: number, limit: number): Measure => {
    const goal = `<= ${limit.toFixed(1)}`;
    return { id, what, value, unit: 'ms', goal, ok: value <= limit };
  };
  return [
    one('P1', `median, ${events}`, quantile(byEvent, 0.5), FRAME_MS),
    one('P1 by frame', `median, ${frames}`, quantile(byFrame, 0.5), FRAME_MS),
    one('P2', `99th percentile, ${events}`, quantile(byEvent, 0.99), 2 * FRAME_MS),
    one('P2 by frame', `99th percentile, ${frames}`, quantile(byFrame, 0.99), 2 * FRAME_MS),
  ];
}
