/** The whole job with the keyboard alone, in the page as it is built: from no header to an exported file. */

import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readHeader } from '../../core/index.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { command, downloadedText, enterLine, entryLine, expectNoFaults, saveMark } from './page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp();
  // Whatever a pointer does from here on is an error of this test.
  await app.page.evaluate(() => {
    const counter = { pointers: 0 };
    Object.assign(globalThis, { pointerCounter: counter });
    addEventListener('pointerdown', () => {
      counter.pointers += 1;
    });
  });
});
afterAll(async () => await app.end());

/** Cylinder 3 is 1/4 in shorter than the others, which is more than the band of 1/8 in. */
const PRIMARIES = [
  ['5 1/2', 'b90 60', '2 1/2', 'b90 90', '8'],
  ['5 1/2', 'b90 60', '2 1/2', 'b90 90', '8'],
  ['5 1/2', 'b90 60', '2 1/2', 'b90 90', '7 3/4'],
  ['5 1/2', 'b90 60', '2 1/2', 'b90 90', '8'],
] as const;

test('a header is made, entered, judged and exported without a pointer', async () => {
  const { page } = app;
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
  await enterLine(page, 'Keyboard only');
  await page.getByRole('heading', { name: 'New header: Keyboard only' }).waitFor();
  await expect.poll(() => page.getByLabel('Ports').evaluate((field) => field === document.activeElement)).toBe(true);
  expect(await page.getByLabel('Ports').inputValue()).toBe('4');
  await page.keyboard.press('Enter');
  await expect.poll(() => entryLine(page).evaluate((field) => field === document.activeElement)).toBe(true);

  for (const [index, lines] of PRIMARIES.entries()) {
    if (index > 0) await page.keyboard.press('PageDown');
    for (const line of lines) await enterLine(page, line);
  }

  const third = page.getByRole('option', { name: /Primary 3/ });
  await expect.poll(() => third.textContent()).toMatch(/short/);
  await page.keyboard.press('Alt+3');
  await expect.poll(() => page.locator('.primary-verdict').textContent()).toMatch(/1\/4" short/);
  await expect.poll(() => saveMark(page).textContent()).toBe('All saved');

  const exported = readHeader(await downloadedText(page, () => page.keyboard.press('Control+Shift+E')));
  expect(exported.ok && exported.value.name).toBe('Keyboard only');
  expect(exported.ok && exported.value.primaries.map(({ pieces }) => pieces.length)).toEqual([5, 5, 5, 5]);
  expect(await page.evaluate('pointerCounter.pointers')).toBe(0);
  expectNoFaults(app.faults);
});

test('every command of the search box is reached by typing its name', async () => {
  const { page } = app;
  await command(page, 'dark theme');
  await expect.poll(() => page.evaluate(() => document.documentElement.dataset['theme'])).toBe('dark');
  expectNoFaults(app.faults);
});

test('a sign that Option types is a letter in a name, and a command where figures are entered', async () => {
  const { page } = app;
  await command(page, 'Rename this header');
  await page.getByLabel('New name of Keyboard only').waitFor();
  const isTaken = (field: Locator) =>
    field.evaluate((element) => {
      const press = { key: 'å', code: 'KeyA', altKey: true, bubbles: true, cancelable: true };
      return !element.dispatchEvent(new KeyboardEvent('keydown', press));
    });
  const primaries = page.getByRole('option', { name: /^Primary \d/ });
  expect(await isTaken(page.getByLabel('New name of Keyboard only'))).toBe(false);
  expect(await primaries.count()).toBe(4);
  expect(await isTaken(entryLine(page))).toBe(true);
  await expect.poll(() => primaries.count()).toBe(5);
  expectNoFaults(app.faults);
});
