/** The chart's figures as a table: for screen readers beside the chart, and in sight when asked for. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { enterLine, entryLine, expectNoFaults, openDemo, openPanel } from './page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  await openDemo(app);
  await entryLine(app.page).focus();
});
afterAll(async () => await app.end());

/** Cells of the first primary's row: name, pieces, length, deviation, verdict. */
const firstRow = () => app.page.locator('.figures tbody tr').first().locator('th, td').allTextContents();
/** The same length as the heading of the primary in hand has it, without its unit. */
const lengthInHeading = async () => (await app.page.locator('.primary-length').textContent())?.replace(/"$| mm$/, '');

test('out of sight it follows an edit, and in sight it says the same', async () => {
  const [, pieces, lengthBefore] = await firstRow();
  await enterLine(app.page, '1 1/2');
  await expect.poll(async () => (await firstRow())[1]).toBe(String(Number(pieces) + 1));
  const [, , length] = await firstRow();
  expect(length).not.toBe(lengthBefore);
  expect(length).toBe(await lengthInHeading());
  await openPanel(app.page, 'Tables');
  await expect.poll(() => app.page.locator('.figures').getAttribute('class')).toBe('figures');
  await entryLine(app.page).focus();
  await app.page.keyboard.press('ControlOrMeta+z');
  await expect.poll(async () => (await firstRow())[2]).toBe(lengthBefore);
  expect(await lengthInHeading()).toBe(lengthBefore);
  expectNoFaults(app.faults);
});
