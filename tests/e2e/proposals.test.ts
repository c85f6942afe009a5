/** A whole primary proposed in the page as it is built: listed with its picture, looked at, applied as one step, and taken back. */

import type { Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Header, Primary } from '../../core/header/header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { expectNoFaults, openBench, openDemo, openPanel } from './page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

/** The demo with only so many pieces of primary 3 left, under its new id. */
async function openWithPieces(left: number): Promise<string> {
  const demoId = await openDemo(app);
  const { header } = await app.backend.must('openHeader', { headerId: demoId });
  const cut = (primary: Primary) =>
    primary.id === 'primary-3' ? { ...primary, pieces: primary.pieces.slice(0, left) } : primary;
  const changed = { ...header, id: `left-${left}`, primaries: header.primaries.map(cut) };
  const made = await app.backend.must('importHeader', { header: changed });
  await openBench(app.page, made.header.id);
  await app.page.keyboard.press('Alt+3');
  await openPanel(app.page, 'Moves');
  return made.header.id;
}

/** A busy machine may not come through in the time that a search has: then it is told to search on. */
async function proposals(): Promise<Locator> {
  const { page } = app;
  const list = page.getByRole('grid', { name: 'Proposals for Primary 3' });
  const searchOn = page.getByRole('button', { name: 'Search on' });
  for (;;) {
    await list.or(searchOn).first().waitFor();
    if ((await list.count()) > 0 && (await searchOn.count()) === 0) return list;
    await searchOn.click();
    await searchOn.waitFor({ state: 'detached' });
  }
}

async function piecesOf(headerId: string): Promise<Primary['pieces']> {
  const { header }: { readonly header: Header } = await app.backend.must('openHeader', { headerId });
  return header.primaries.find(({ id }) => id === 'primary-3')?.pieces ?? [];
}

test('an empty primary is proposed whole, looked at, applied as one step and taken back', async () => {
  const { page } = app;
  const headerId = await openWithPieces(0);
  const list = await proposals();
  const rows = list.locator('.proposal');
  expect(await list.locator('.tube-picture').count()).toBe(await rows.count());
  await rows.first().focus();
  await page.locator('[data-primary="primary-3"] .strip-after').waitFor();
  expect(await piecesOf(headerId)).toEqual([]);
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await piecesOf(headerId)).length).toBeGreaterThan(2);
  expect((await piecesOf(headerId)).every(({ state }) => state === 'planned')).toBe(true);
  await page.keyboard.press('Control+z');
  await expect.poll(() => piecesOf(headerId)).toEqual([]);
});

test('of one that is half tacked the rest is proposed, and what is tacked stays', async () => {
  const { page } = app;
  const headerId = await openWithPieces(2);
  const before = await piecesOf(headerId);
  await page.getByRole('tab', { name: 'The rest' }).click();
  const list = await proposals();
  await list.locator('.proposal').first().focus();
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await piecesOf(headerId)).length).toBeGreaterThan(2);
  expect((await piecesOf(headerId)).slice(0, 2)).toEqual(before);
});
