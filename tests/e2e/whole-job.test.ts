/** One header from nothing to the next one, as a shop goes about it, in the page as it is built and on the real database. */

import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Header } from '../../core/header/header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import {
  command,
  downloadedText,
  enterLine,
  entryLine,
  expectNoFaults,
  framesDrawn,
  headerMenu,
  openPanel,
  openPlace,
  PLACES,
  saveMark,
} from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

/** Lines of the entry line. All end at the collector below; 3 is 3/16 in shorter than the longest. */
const PRIMARIES = [
  ['5 1/2', 'b90 60', '1 3/8', 'b90 90', '1 7/8', 'b75 0', '7', 'b45 180', '3 3/4'],
  ['3 1/2', 'b90 60', '2 7/8', 'b60 90 r4', '1', 'b90 0', '7 1/2', 'b30 180 r4', '4 11/16'],
  ['8 1/4', 'b90 90', '3', 'b90 30', '3/4', 'b60 90', '10 1/2'],
  ['5 1/2', 'b90 60', '2 1/2', 'b90 90', '8', 'b30 0', '8 1/4'],
] as const;

async function stored(): Promise<Header> {
  return (await app.backend.must('openHeader', { headerId })).header;
}

const states = async (primary: number) => (await stored()).primaries[primary - 1]?.pieces.map(({ state }) => state);
const button = (name: string | RegExp) => app.page.getByRole('button', { name, exact: true });

async function type(label: string | RegExp, value: string): Promise<void> {
  const { page } = app;
  await page.getByLabel(label).first().focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type(value);
  await page.keyboard.press('Enter');
}

test('four primaries are entered as they were tacked', async () => {
  const { page } = app;
  expect((await app.backend.must('listHeaders', { place: 'bench' })).headers).toEqual([]);
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
  await enterLine(page, 'Whole job');
  await page.getByRole('heading', { name: 'New header: Whole job' }).waitFor();
  await expect.poll(() => page.getByLabel('Ports').evaluate((field) => field === document.activeElement)).toBe(true);
  await page.keyboard.press('Enter');
  await expect.poll(() => entryLine(page).evaluate((field) => field === document.activeElement)).toBe(true);
  for (const [index, lines] of PRIMARIES.entries()) {
    if (index > 0) await page.keyboard.press('PageDown');
    for (const line of lines) await enterLine(page, line);
  }
  await expect.poll(() => saveMark(page).textContent()).toBe('All saved');
  headerId = (await page.locator('main.bench').getAttribute('data-header')) ?? '';
  expect((await stored()).primaries.map(({ pieces }) => pieces.length)).toEqual(PRIMARIES.map(({ length }) => length));
});

test('ports and inlets give them a place, and the tubes arrive', async () => {
  const { page } = app;
  await openPanel(page, 'Ports');
  await button('Row of ports').click();
  await page.getByLabel(/^Spacing/).fill('4 1/4');
  await button('Place 4 ports').click();
  await button('Collector by pattern').click();
  await page.getByLabel(/^Gap between tubes/).fill('1/4');
  await page.getByLabel(/^Middle forward/).fill('1 1/2');
  await page.getByLabel(/^Middle outboard/).fill('7 1/2');
  await page.getByLabel(/^Middle up/).fill('-15');
  await page.getByRole('checkbox', { name: /^Primaries without an inlet/ }).uncheck();
  await button('Add collector').click();
  await expect.poll(async () => (await stored()).collectors[0]?.inlets.length).toBe(4);
  // Seen from above the square starts at the forward inlet of the head's side and goes on clockwise.
  for (const [index, inlet] of [4, 1, 2, 3].entries()) {
    await page.keyboard.press(`Alt+${index + 1}`);
    await page.getByRole('region', { name: `Inlet of Primary ${index + 1}` }).waitFor();
    await page.getByLabel('Ends in').selectOption({ label: `4 into 1, inlet ${inlet}` });
    await page.getByLabel(/^May sit deeper by/).fill('1/4');
    await page.getByLabel(/^May sit shallower by/).fill('1/4');
    await page.keyboard.press('Enter');
  }
  await openPanel(page, 'Fit');
  await expect.poll(() => page.locator('.bench-panel tr[data-closed="true"]').count()).toBe(4);
});

test('the short one is matched by the first move', async () => {
  const { page } = app;
  await page.keyboard.press('Alt+3');
  await openPanel(page, 'Moves');
  await page.locator('.proposal').first().click();
  await page.keyboard.press('Enter');
  await expect.poll(() => page.locator('.primary-verdict').textContent()).toMatch(/at target|OK/);
});

test('what is planned is cut from the shelf', async () => {
  const { page } = app;
  await page.keyboard.press('Alt+2');
  await page.locator('[data-row="0"][data-column="6"]').first().click();
  await page
    .locator('[data-row="8"][data-column="6"]')
    .first()
    .click({ modifiers: ['Shift'] });
  await page.keyboard.press('p');
  await expect.poll(async () => new Set(await states(2))).toEqual(new Set(['planned']));
  await openPlace(page, PLACES.shelf);
  await button('Fill with a demo shelf').click();
  await expect.poll(async () => (await app.backend.must('listStock', {})).stock.length).toBeGreaterThan(10);
  await page.goBack();
  await entryLine(page).waitFor();
  await command(page, 'cut plan');
  await page.getByText('Proven least', { exact: false }).waitFor();
  await button('Mark as cut').click();
  await page.getByText(/^Cut .*: 10 pieces from \d+ stock items\.$/).waitFor();
  await expect.poll(async () => new Set(await states(2))).toEqual(new Set(['cut']));
  expect((await stored()).primaries[2]?.pieces.at(-1)).toMatchObject({ state: 'cut', length: { value: 10.6875 } });
});

test('sheet and strips leave the screen', async () => {
  const { page } = app;
  await page.keyboard.press('Control+Shift+b');
  await entryLine(page).waitFor();
  await headerMenu(page, 'Whole job').click();
  await page.getByRole('menuitem', { name: 'Sheets' }).click();
  await page.getByRole('heading', { level: 1, name: 'Sheets' }).waitFor();
  const saved = async (words: string) => await downloadedText(page, () => button(words).click());
  await page.locator('.sheet-preview[aria-busy="false"]').waitFor();
  expect((await saved('Save PDF')).startsWith('%PDF-1.7')).toBe(true);
  await page.getByLabel('Sheet', { exact: true }).selectOption({ label: 'True-size strips' });
  await page.locator('.sheet-preview[aria-label="Preview: Strips"][aria-busy="false"]').waitFor();
  expect((await saved('Save PDF')).startsWith('%PDF-1.7')).toBe(true);
  expect(await saved('Save SVG')).toMatch(/<svg[^>]* width="[\d.]+mm"/);
  expect(await saved('Save DXF, arcs')).toContain('ENTITIES');
});

test('a wrong entry is found by measuring the tube, and put right', async () => {
  const { page } = app;
  await page.getByRole('link', { name: 'Back to the bench' }).click();
  await entryLine(page).waitFor();
  await framesDrawn(page);
  await page.keyboard.press('Alt+4');
  await openPanel(page, 'As-built');
  // 24 1/4 in of straights and 210 degrees of 3 in CLR bends in 1 3/4 in tube: 38.45 in outside, 35.25 in down the middle.
  await type('Tape along the outside (in)', '38.45');
  await type('String or wire down the middle (in)', '35 1/4');
  await page.locator('[data-row="1"][data-column="2"]').click();
  await enterLine(page, '45');
  const wrong = page.locator('.asbuilt-entries li').first();
  await expect.poll(() => wrong.textContent()).toContain('Piece 2: 90° rather than 45°');
  await wrong.getByRole('button', { name: 'Put it right' }).click();
  const found = page.getByRole('region', { name: 'Wrong entry' }).getByRole('status');
  await expect.poll(() => found.textContent()).toBe('The tube agrees with its pieces; nothing to look for.');
});

test('welded and checked, it is finished, found in the archive and built again for the other bank', async () => {
  const { page } = app;
  await headerMenu(page, 'Whole job').click();
  await page.getByRole('menuitem', { name: 'Finish' }).click();
  await button('Finish it').click();
  await expect.poll(async () => (await stored()).state).toBe('finished');
  await openPlace(page, PLACES.archive);
  await page.getByLabel(/^Search name/).fill('whole');
  await page.getByRole('heading', { level: 2, name: 'Whole job' }).waitFor();
  const before = (await stored()).primaries;
  await page.getByRole('button', { name: 'More for Whole job' }).click();
  await page.getByRole('menuitem', { name: 'Open as new, mirrored' }).click();
  await entryLine(page).waitFor();
  headerId = (await page.locator('main.bench').getAttribute('data-header')) ?? '';
  const outboard = (primaries: Header['primaries'], sign: 1 | -1) =>
    primaries.map(({ port }) => (port === null ? null : sign * port.direction.y));
  await expect.poll(async () => outboard((await stored()).primaries, 1)).toEqual(outboard(before, -1));
  const made = (await stored()).primaries.flatMap(({ pieces }) => pieces);
  expect(made.map(({ state }) => state)).toEqual(made.map(() => 'planned'));
  expect(made).toHaveLength(PRIMARIES.flat().length);
});
