/** A header as a whole: its menu, its note, what is said before it is finished, and what is left of it after. */

import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Header } from '../../core/header/header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import {
  command,
  entryLine,
  expectNoFaults,
  headerMenu,
  openDemo,
  openPanel,
  openPlace,
  PLACES,
} from './page-parts.ts';
import { press, showTab } from './shape-parts.ts';

let app: AppUnderTest;
let page: Page;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  ({ page } = app);
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

async function stored(id = headerId): Promise<Header> {
  return (await app.backend.must('openHeader', { headerId: id })).header;
}

async function choose(act: string): Promise<void> {
  await headerMenu(page, 'Hill-climb four').click();
  await page.getByRole('menuitem', { name: act }).click();
}

test('"mov" finds the moves first, and the bin not at all', async () => {
  headerId = await openDemo(app);
  await page.keyboard.press('Control+k');
  await page.locator('[role="dialog"] input:focus').waitFor();
  await page.keyboard.type('mov');
  const found = page.getByRole('menuitem');
  await expect.poll(() => found.first().textContent()).toMatch(/^Moves/);
  expect((await found.allTextContents()).filter((words) => /bin/i.test(words))).toEqual([]);
  await page.keyboard.press('Enter');
  await page.getByRole('region', { name: 'Moves' }).waitFor();
});

test('undo and redo stand on screen, name what they do, and do it', async () => {
  headerId = await openDemo(app);
  const before = await stored();
  const undo = page.getByRole('button', { name: /^Undo/ });
  expect(await undo.isDisabled()).toBe(true);
  await entryLine(page).focus();
  await page.keyboard.type('b45');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /^Undo.*bend 45/ }).click();
  await expect.poll(() => stored()).toEqual(before);
  await page.getByRole('button', { name: /^Redo.*bend 45/ }).click();
  await expect.poll(async () => (await stored()).primaries[0]?.pieces.at(-1)?.kind).toBe('bend');
});

test('a note of several lines is one step, and stays', async () => {
  headerId = await openDemo(app);
  await openPanel(page, 'Settings');
  const note = page.getByRole('textbox', { name: 'Note of the header' });
  await note.fill('Clears the box by 1/4.\nFlanges are 3/8.');
  await page.getByLabel(/^Usual CLR/).focus();
  await expect.poll(async () => (await stored()).note).toBe('Clears the box by 1/4.\nFlanges are 3/8.');
  expect((await app.backend.must('openHeader', { headerId })).undo).toHaveLength(1);
  await page.reload();
  await openPanel(page, 'Settings');
  expect(await note.inputValue()).toBe('Clears the box by 1/4.\nFlanges are 3/8.');
});

test('mirrored copies go into the primary that waits for them', async () => {
  headerId = await openDemo(app);
  await command(page, 'Add primary');
  await expect.poll(async () => (await stored()).primaries.length).toBe(5);
  await page.keyboard.press('Alt+1');
  await openPanel(page, 'Tables');
  await showTab(page, 'Other bank');
  await press(page, 'Add mirrored copies');
  await expect.poll(async () => (await stored()).primaries.map(({ pieces }) => pieces.length)).toEqual([9, 9, 7, 7, 9]);
  expect((await stored()).primaries[4]?.name).toBe('5');
});

test('before it is finished the gaps under the minimum clearance are told; after, it has Duplicate, closure, tables and units', async () => {
  headerId = await openDemo(app);
  await choose('Finish');
  const dialog = page.getByRole('dialog', { name: /^Finish / });
  await dialog.getByText(/gap under the minimum clearance of 1\/4"/).waitFor();
  await dialog.getByRole('button', { name: 'Finish it' }).click();
  await page.getByText('Finished: it does not change any more.').waitFor();
  const finished = await stored();
  expect(finished.state).toBe('finished');

  await openPanel(page, 'Fit');
  await page
    .getByRole('region', { name: 'Closure', exact: true })
    .getByRole('row', { name: /^Primary 1/ })
    .waitFor();
  expect(await page.locator('.bench-panel input, .bench-panel select').count()).toBe(0);
  await openPanel(page, 'Tables');
  await showTab(page, 'LRA and XYZ');
  await page.getByRole('button', { name: 'Copy table' }).waitFor();
  await page.getByRole('button', { name: /^Lengths shown in/ }).click();
  await page.getByRole('menuitemradio', { name: 'mm, 0.1', exact: true }).click();
  await expect.poll(() => page.locator('.primary-length').textContent()).toMatch(/mm$/);
  expect(await stored()).toEqual(finished);

  await page.getByRole('button', { name: 'Duplicate', exact: true }).click();
  await headerMenu(page, 'Hill-climb four (copy)').waitFor();
  await expect.poll(() => entryLine(page).count()).toBe(1);
  const copyId = (await page.locator('main.bench').getAttribute('data-header')) ?? '';
  const copy = await stored(copyId);
  expect(new Set(copy.primaries.flatMap(({ pieces }) => pieces.map(({ state }) => state)))).toEqual(
    new Set(['planned']),
  );
});

test('the notice that a header went to the bin goes when it is restored from there', async () => {
  headerId = await openDemo(app);
  await choose('Bin');
  await page.getByText('Hill-climb four is in the bin.').waitFor();
  await openPlace(page, PLACES.headers);
  await page.getByRole('button', { name: /^Bin: 1 header/ }).click();
  await page.getByRole('button', { name: 'Restore Hill-climb four' }).click();
  await page.getByText('Hill-climb four is back among the headers.').waitFor();
  expect(await page.getByRole('button', { name: 'Restore it' }).count()).toBe(0);
  expect(await page.getByText('Hill-climb four is in the bin.').count()).toBe(0);
});
