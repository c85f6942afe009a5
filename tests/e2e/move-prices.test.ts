/** A shop's own prices in the page as it is built: typed, shown with every move, deciding the order, and there again after a reload. */

import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { expectNoFaults, openBench, openDemo, openPanel } from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  const demo = await app.backend.must('openHeader', { headerId: await openDemo(app) });
  const { header } = demo;
  // With everything tacked, joints and cuts are real work.
  const primaries = header.primaries.map((primary) => ({
    ...primary,
    pieces: primary.pieces.map((piece) => ({ ...piece, state: 'tacked' as const })),
  }));
  const made = await app.backend.must('importHeader', { header: { ...header, id: 'tacked', primaries } });
  headerId = made.header.id;
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

const JOINT_MIN = 20;
const CUT_MIN = 5;

async function openMoves(page: Page) {
  await openBench(page, headerId);
  await page.keyboard.press('Alt+3');
  await openPanel(page, 'Moves');
  const list = page.getByRole('grid', { name: 'Moves for Primary 3' });
  await list.waitFor();
  return list;
}

async function figures(page: Page, column: string): Promise<readonly number[]> {
  const texts = await page.locator(`.proposal [data-column="${column}"]`).allInnerTexts();
  return texts.map((text) => Number(text.replace(' min', '')));
}

const PANEL_AND_LIST = `['.panel-body', '.proposals'].map((part) => document.querySelector(part)?.clientHeight ?? 0)`;

async function typePrice(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label);
  await field.fill(text);
  await field.press('Enter');
}

test('minutes decide the order, stand in a column of their own, and are kept', async () => {
  const { page } = app;
  const list = await openMoves(page);
  expect(await list.getByRole('columnheader', { name: 'Price' }).count()).toBe(0);
  await page.getByRole('tab', { name: 'Limits' }).click();
  await page.getByLabel('Rank moves by').selectOption({ label: 'Minutes of the shop' });
  await typePrice(page, 'A joint (min)', 'long');
  await page.getByText('"long" is no price: type a number such as 15 or 7.5.').waitFor();
  await typePrice(page, 'A joint (min)', String(JOINT_MIN));
  await typePrice(page, 'A saw cut (min)', String(CUT_MIN));
  await page.getByRole('tab', { name: 'Primary 3' }).click();
  await list.getByRole('columnheader', { name: 'Price' }).waitFor();
  const expected = async () => {
    const [joints, cuts] = [await figures(page, 'joints'), await figures(page, 'cuts')];
    return joints.map((count, at) => count * JOINT_MIN + (cuts[at] ?? 0) * CUT_MIN);
  };
  await expect.poll(async () => (await figures(page, 'price')).length).toBeGreaterThan(1);
  const prices = await figures(page, 'price');
  expect(prices).toEqual(await expected());
  expect(prices).toEqual([...prices].sort((a, b) => a - b));
  // In one column as well, the moves stand in the panel in full.
  await page.setViewportSize({ width: 400, height: 800 });
  const heights = () => page.evaluate<readonly number[]>(PANEL_AND_LIST);
  await expect.poll(async () => ((await heights())[1] ?? 0) > 200).toBe(true);
  const [panelPx = 0, listPx = 0] = await heights();
  expect(panelPx).toBeGreaterThan(listPx);
  await page.setViewportSize({ width: 1366, height: 768 });
  await page.reload();
  const again = await openMoves(page);
  await again.getByRole('columnheader', { name: 'Price' }).waitFor();
  const kept = await app.backend.must('start', {});
  expect(kept.state === 'ready' ? kept.preferences.movePrices : null).toMatchObject({
    rankBy: 'minutes',
    joint: JOINT_MIN,
    cut: CUT_MIN,
  });
});
