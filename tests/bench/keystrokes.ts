/** K1: how many keys the demo header takes, typed for real into an empty header of the same settings. */

import type { Page } from 'playwright-core';
import { demoHeader } from '../../core/header/demo-header.ts';
import type { Header } from '../../core/header/header.ts';
import { unitOf } from '../../core/units/length-style.ts';
import { launchApp } from '../e2e/app-under-test.ts';
import type { Measure } from '../measure.ts';
import { digestOf } from '../trust/canonical.ts';
import { entrySpelling, shapeDigest } from './entry-spelling.ts';

const GOAL = 7;

/** The lines to type for each primary, in order. */
export function linesFor(header: Header): readonly (readonly string[])[] {
  const { display, clr } = header.settings;
  const context = { unit: unitOf(display), clr };
  return header.primaries.map(({ pieces }) => pieces.map((piece) => entrySpelling(piece, context)));
}

function withoutPieces(header: Header): Header {
  return { ...header, primaries: header.primaries.map((primary) => ({ ...primary, pieces: [] })) };
}

function shapesOf(header: Header): string {
  return digestOf(header.primaries.map(({ pieces }) => pieces.map(shapeDigest)));
}

/** Counts in the page itself, so that no key goes uncounted. */
async function countKeys(page: Page): Promise<() => Promise<number>> {
  await page.evaluate(() => {
    const counter = { keys: 0 };
    Object.assign(globalThis, { keyCounter: counter });
    const count = (event: KeyboardEvent) => {
      if (!event.repeat) counter.keys += 1;
    };
    addEventListener('keydown', count, { capture: true });
  });
  return () => page.evaluate<number>('keyCounter.keys');
}

/** Types the demo header; returns the keys pressed, the pieces entered and whether the result is the demo header. */
export async function typeDemoHeader(): Promise<{ keys: number; pieces: number; isSame: boolean }> {
  const demo = demoHeader('typed-demo');
  const empty = withoutPieces(demo);
  const app = await launchApp({
    host: 'loopback',
    prepare: async (backend) => void (await backend.must('importHeader', { header: empty })),
  });
  try {
    const { page } = app;
    const line = page.getByRole('combobox', { name: 'Next piece' });
    await line.waitFor();
    await line.focus();
    const keysSoFar = await countKeys(page);
    for (const [index, lines] of linesFor(demo).entries()) {
      if (index > 0) await page.keyboard.press('PageDown');
      for (const text of lines) {
        await page.keyboard.type(text);
        await page.keyboard.press('Enter');
      }
    }
    const keys = await keysSoFar();
    await page.getByText('All saved').waitFor();
    const { headers } = await app.backend.must('listHeaders', { place: 'bench' });
    const headerId = headers[0]?.headerId ?? '';
    const { header } = await app.backend.must('openHeader', { headerId });
    const pieces = demo.primaries.reduce((count, primary) => count + primary.pieces.length, 0);
    return { keys, pieces, isSame: shapesOf(header) === shapesOf(demo) };
  } finally {
    await app.end();
  }
}

export async function measureKeystrokes(): Promise<readonly Measure[]> {
  const { keys, pieces, isSame } = await typeDemoHeader();
  const value = keys / pieces;
  const what =
    `keys for each piece of the demo header, typed in the page with fractions and spaces: ${keys} keys for ${pieces} pieces, Enter, clockings and ` +
    `going to the next primary included${isSame ? '' : '; BUT WHAT CAME OUT IS NOT THE DEMO HEADER'}`;
  return [{ id: 'K1', what, value, unit: 'keys', goal: `<= ${GOAL}`, ok: isSame && value <= GOAL }];
}
