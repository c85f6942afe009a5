/** From an empty shelf to cut tube and back, with the keyboard alone, in the page as it is built and on the real database. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { command, entryLine, expectNoFaults, openDemo, saveMark } from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
  await openDemo(app);
  await watchPointers();
});
afterAll(async () => await app.end());

/** From here on, until the page is loaded anew. */
async function watchPointers(): Promise<void> {
  await app.page.evaluate(() => {
    const counter = { pointers: 0 };
    Object.assign(globalThis, { pointerCounter: counter });
    addEventListener('pointerdown', () => {
      counter.pointers += 1;
    });
  });
}

async function expectNoPointers(): Promise<void> {
  expect(await app.page.evaluate('pointerCounter.pointers')).toBe(0);
}

/** Goes on with Tab until the control of this name has the focus, and presses it. */
async function pressByKeyboard(name: string | RegExp): Promise<void> {
  const { page } = app;
  const wanted = page.getByRole('button', { name, exact: true });
  await wanted.waitFor();
  for (let tabs = 0; tabs < 200; tabs += 1) {
    if (await wanted.evaluate((button) => button === document.activeElement)) {
      await page.keyboard.press('Enter');
      return;
    }
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never comes to ${name}`);
}

async function statesOnDisk(): Promise<readonly string[]> {
  const { header } = await app.backend.must('openHeader', { headerId });
  return header.primaries.flatMap(({ pieces }) => pieces.map(({ state }) => state));
}

async function piecesOnShelf(): Promise<number> {
  const { stock } = await app.backend.must('listStock', {});
  return stock.reduce((sum, { item }) => sum + item.count, 0);
}

let before = 0;
let after = 0;

test('a second header like the demo is planned from a shelf that was just filled', async () => {
  const { page } = app;
  // All tube of the demo is cut; the copy is to be built from new tube.
  await command(page, 'duplicate this header');
  await expect.poll(() => page.locator('main.bench').getAttribute('data-header')).not.toBe(null);
  await expect.poll(async () => (await app.backend.must('listHeaders', { place: 'bench' })).headers.length).toBe(2);
  headerId = (await app.backend.must('listHeaders', { place: 'bench' })).headers[0]?.headerId ?? '';
  await page.locator(`main.bench[data-header="${headerId}"]`).waitFor();
  await page.keyboard.press('Control+Shift+s');
  await page.getByRole('heading', { level: 1, name: 'Shelf' }).waitFor();
  await pressByKeyboard('Fill with a demo shelf');
  await expect.poll(piecesOnShelf).toBeGreaterThan(40);
  before = await piecesOnShelf();
  await command(page, 'cut plan');
  await page.getByText('Proven least', { exact: false }).waitFor();
  await page.getByRole('region', { name: 'Cut list' }).waitFor();
});

test('marked as cut, the stock is off the shelf and the pieces are cut, in one step; what is short stays planned', async () => {
  const { page } = app;
  const said = (await page.locator('.cut-carry-out').textContent()) ?? '';
  const [, takes = '', marks = ''] = /Takes (\d+) items off the shelf.* marks (\d+) pieces cut/.exec(said) ?? [];
  const [, keeps = '0'] = /puts (\d+) remnants? on it/.exec(said) ?? [];
  await pressByKeyboard('Mark as cut');
  await page.getByText(/^Cut .*: \d+ pieces from \d+ stock items\.$/).waitFor();
  expect((await statesOnDisk()).filter((state) => state === 'cut')).toHaveLength(Number(marks));
  after = await piecesOnShelf();
  expect(after).toBe(before - Number(takes) + Number(keeps));
  const { plans } = await app.backend.must('listCutPlans', { headerId });
  expect(plans).toHaveLength(1);
});

test('the list that was sawn is there again after a reload, beside the plan of what is still to cut', async () => {
  const { page } = app;
  await expectNoPointers();
  await page.reload();
  await watchPointers();
  await pressByKeyboard(/^Cut \d.*pieces$/);
  await page.getByText(/^Cut .*: \d+ pieces from \d+ stock items\.$/).waitFor();
  expect(await page.locator('.cut-work').count()).toBeGreaterThan(3);
});

test('undone on the bench, both are as they were; done again, both are cut', async () => {
  const { page } = app;
  const cut = (await statesOnDisk()).filter((state) => state === 'cut').length;
  await page.keyboard.press('Control+Shift+b');
  await entryLine(page).waitFor();
  await page.keyboard.press('Control+z');
  await expect.poll(piecesOnShelf).toBe(before);
  expect((await statesOnDisk()).filter((state) => state === 'cut')).toHaveLength(0);
  await page.keyboard.press('Control+y');
  await expect.poll(async () => (await statesOnDisk()).filter((state) => state === 'cut').length).toBe(cut);
  expect(await piecesOnShelf()).toBe(after);
  await expect.poll(() => saveMark(page).textContent()).toBe('All saved');
});

test('taken back on its own screen, both are as they were, and the bench shows it', async () => {
  const { page } = app;
  await command(page, 'cut plan');
  await pressByKeyboard(/^Cut \d.*pieces$/);
  await pressByKeyboard('Take back');
  await expect.poll(piecesOnShelf).toBe(before);
  expect(new Set(await statesOnDisk())).toEqual(new Set(['planned']));
  await page.getByRole('button', { name: 'Mark as cut' }).waitFor();
  await page.keyboard.press('Control+Shift+b');
  await entryLine(page).waitFor();
  await expect.poll(() => page.locator('.piece-grid tbody').textContent()).not.toContain('◔');
  await expectNoPointers();
  expectNoFaults(app.faults);
});

test('the piece in hand on the bench has its cut chosen, and a chosen cut has its piece in hand', async () => {
  const { page } = app;
  const row = page.locator('.piece-grid tbody tr[aria-rowindex]').nth(1);
  await row.locator('td').nth(1).click();
  await command(page, 'cut plan');
  const chosen = page.locator('.cut-steps tr[data-chosen]');
  await expect.poll(() => chosen.textContent()).toMatch(/Primary 1, piece 2/);
  const others = page.locator('.cut-steps tbody tr:not([data-chosen])', { hasText: /Primary 3, piece/ });
  const words = (await others.first().textContent()) ?? '';
  const [, piece = ''] = /Primary 3, piece (\d+)/.exec(words) ?? [];
  await others.first().getByRole('button').click();
  await page.getByRole('link', { name: 'Show it on the bench' }).click();
  await expect.poll(() => page.locator('.primary-heading, .primary-pane').first().textContent()).toMatch(/Primary 3/);
  const selected = page.locator('.piece-grid tbody tr[aria-selected="true"]');
  await expect.poll(() => selected.first().locator('th').textContent()).toContain(piece);
  expectNoFaults(app.faults);
});

test('other headers are cut together with it, and their pieces told apart on the tube', async () => {
  const { page } = app;
  await command(page, 'cut plan');
  const marks = page.locator('.cut-steps td:last-child div', { hasText: /\d-\d/ });
  await marks.first().waitFor();
  expect(await marks.first().textContent()).toMatch(/^\d-\d/);
  const target = await page.evaluate(() => {
    const size = getComputedStyle(document.documentElement).getPropertyValue('--target-size');
    const probe = document.body.appendChild(Object.assign(document.createElement('div'), { style: `height: ${size}` }));
    const { height } = probe.getBoundingClientRect();
    probe.remove();
    return height;
  });
  for (const link of await page.locator('.cut-plan summary, .cut-plan .actions > a').all())
    expect((await link.boundingBox())?.height).toBeGreaterThanOrEqual(target);
  await page.getByText('Cut other headers together with it').click();
  await page.getByLabel('Hill-climb four', { exact: true }).check();
  await expect.poll(() => marks.first().textContent()).toMatch(/^Hill-climb four \(copy\) \d-\d/);
  await page.getByText('Cut together with 1 more').waitFor();
  expectNoFaults(app.faults);
});
