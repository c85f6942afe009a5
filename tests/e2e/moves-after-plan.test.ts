/** Moves look at what the shelf has once the planned pieces of other runners are cut from it, and what must be ordered comes last. */

import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Header, PieceState } from '../../core/header/header.ts';
import type { StockItem } from '../../core/stock/stock-item.ts';
import { inches } from '../../core/units/length.ts';
import { adding } from '../shelf-changes.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { expectNoFaults, openBench, openDemo, openPanel } from './page-parts.ts';

let app: AppUnderTest;
let demo: Header;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  demo = (await app.backend.must('openHeader', { headerId: await openDemo(app) })).header;
  const { material, od, wall } = demo.settings.tube;
  // One bar, that the longest straight of the fourth runner takes whole.
  const straights = demo.primaries[3]?.pieces.flatMap((piece) => (piece.kind === 'straight' ? [piece] : [])) ?? [];
  const length = inches(Math.max(...straights.map((piece) => piece.length.value)));
  const bar: StockItem = { kind: 'straight', id: 'bar', material, od, wall, length, count: 1, note: '' };
  await app.backend.must('changeShelf', adding(bar));
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

/** The demo with all runners tacked but the fourth, whose pieces are in `state`. */
async function openWith(state: PieceState): Promise<Page> {
  const primaries = demo.primaries.map((primary, at) => ({
    ...primary,
    pieces: primary.pieces.map((piece) => ({ ...piece, state: at === 3 ? state : ('tacked' as const) })),
  }));
  const made = await app.backend.must('importHeader', { header: { ...demo, primaries } });
  await openBench(app.page, made.header.id);
  await app.page.keyboard.press('Alt+3');
  await openPanel(app.page, 'Moves');
  await app.page.getByRole('grid', { name: 'Moves for Primary 3' }).waitFor();
  return app.page;
}

async function shelfCells(page: Page): Promise<readonly string[]> {
  return await page.locator('.proposal [data-column="shelf"]').allInnerTexts();
}

const lacks = (text: string) => text.includes('lacks');

test('a bar that no other runner needs is there for moves', async () => {
  const page = await openWith('tacked');
  await expect
    .poll(async () => (await shelfCells(page)).filter((text) => text.includes('has all')).length)
    .toBeGreaterThan(0);
  await page.getByRole('tab', { name: 'Limits' }).click();
  await page.getByText('Use the shelf: 1 row', { exact: true }).waitFor();
});

test('one that the fourth runner will be cut from is not, and what lacks it comes after all else', async () => {
  const page = await openWith('planned');
  const holds = async () => {
    const cells = await shelfCells(page);
    const first = cells.findIndex(lacks);
    return first >= 0 && cells.slice(first).every(lacks) && !cells.some((text) => text.includes('has all'));
  };
  await expect.poll(holds).toBe(true);
  await page.getByRole('tab', { name: 'Limits' }).click();
  await page.getByText('Use the shelf: 1 row, less what the planned pieces of other runners are cut from').waitFor();
});
