/** The list of headers on the real store: create, open, rename, duplicate, bin and restore. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { expectNoFaults, goTo, headerMenu, saveMark } from '../../e2e/page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp();
});
afterAll(async () => await app.end());

const namesIn = async (place: 'bench' | 'bin') =>
  (await app.backend.must('listHeaders', { place })).headers.map(({ name }) => name).sort();

const headings = () => app.page.locator('#screen h1').allInnerTexts();

async function choose(name: string, act: string): Promise<void> {
  await app.page.getByRole('button', { name: `More for ${name}` }).click();
  await app.page.getByRole('menuitem', { name: act }).click();
}

test('the first start says what to do, and Enter on the empty line makes the offered header', async () => {
  const { page } = app;
  await expect.poll(headings).toEqual(['Every primary the same length']);
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
  await page.getByRole('img', { name: /demo header/ }).waitFor();
  await page.keyboard.press('Enter');
  await page.waitForURL(/#\/bench\//);
  expect(await namesIn('bench')).toEqual(['Header 1']);
  await expect.poll(() => headerMenu(page, 'Header 1').count()).toBe(1);
});

test('the name in the bar is changed in place: Enter keeps, Escape does not', async () => {
  const { page } = app;
  const rename = async () => {
    await headerMenu(page, 'Header 1').click();
    await page.getByRole('menuitem', { name: 'Rename' }).click();
    await page.getByLabel('New name of Header 1').waitFor();
  };
  await rename();
  await page.keyboard.type('Not this one');
  await page.keyboard.press('Escape');
  await rename();
  await page.getByLabel('New name of Header 1').fill('Hill-climb four');
  await page.keyboard.press('Enter');
  await expect.poll(() => namesIn('bench')).toEqual(['Hill-climb four']);
  await expect.poll(() => saveMark(page).textContent()).toBe('All saved');
});

test('a header that is not open is renamed as well, by one step that can be undone', async () => {
  const { page } = app;
  const { header } = await app.backend.must('createHeader', { name: 'Left bank', from: 'demo' });
  await goTo(page, '#/shelf');
  await goTo(page, '#/headers');
  await choose('Left bank', 'Rename');
  await page.getByLabel('New name of Left bank').fill('Right bank');
  await page.keyboard.press('Enter');
  await expect.poll(() => namesIn('bench')).toEqual(['Hill-climb four', 'Right bank']);
  const { undo } = await app.backend.must('openHeader', { headerId: header.id });
  expect(undo).toHaveLength(1);
  expect(undo[0]?.inverse).toMatchObject({ kind: 'setHeader', set: { name: 'Left bank' } });
});

test('a header in the list has its strips and how its primaries stand', async () => {
  const { page } = app;
  const row = page.locator('.header-row', { hasText: 'Right bank' });
  await row.getByText('◀ 1 short, ▶ 1 long, ● 1 OK').waitFor();
  // One box a piece, of all primaries.
  await expect.poll(() => row.locator('.header-thumbnail rect').count()).toBe(9 + 9 + 7 + 7);
});

test('a header goes to the bin without a question, and comes back from the notice or from the bin', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Right bank', exact: true }).waitFor();
  await choose('Right bank', 'Move to the bin');
  await expect.poll(() => namesIn('bin')).toEqual(['Right bank']);
  await page.getByRole('button', { name: 'Restore it' }).click();
  await expect.poll(() => namesIn('bench')).toEqual(['Hill-climb four', 'Right bank']);
  await page.getByRole('button', { name: 'Right bank', exact: true }).waitFor();
  await choose('Right bank', 'Move to the bin');
  await page.getByRole('button', { name: 'Bin: 1 header' }).click();
  await page.getByRole('button', { name: 'Restore Right bank' }).click();
  await expect.poll(() => namesIn('bin')).toEqual([]);
});

test('the header in hand can be binned too, and the bench then has nothing on it', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Hill-climb four', exact: true }).waitFor();
  await choose('Hill-climb four', 'Move to the bin');
  await expect.poll(() => namesIn('bin')).toEqual(['Hill-climb four']);
  await expect.poll(() => saveMark(page).count()).toBe(0);
  await page.getByRole('button', { name: 'Restore it' }).click();
  await expect.poll(() => namesIn('bin')).toEqual([]);
});

test('a duplicate opens on the bench, under a name that tells it apart', async () => {
  const { page } = app;
  await goTo(page, '#/headers');
  await choose('Right bank', 'Duplicate');
  await page.waitForURL(/#\/bench\//);
  await expect.poll(() => namesIn('bench')).toEqual(['Hill-climb four', 'Right bank', 'Right bank (copy)']);
  await headerMenu(page, 'Right bank (copy)').waitFor();
  expectNoFaults(app.faults);
});

test('many headers: the list is short at first, and a name typed finds its header', async () => {
  const { page } = app;
  for (let number = 0; number < 60; number += 1) {
    await app.backend.must('createHeader', { name: `Stock car ${number}`, from: 'blank' });
  }
  await goTo(page, '#/headers');
  await page.getByLabel(/Find among 63 headers/).waitFor();
  expect(await page.locator('.header-row').count()).toBe(40);
  await page.getByLabel(/Find among 63 headers/).fill('car 41');
  await expect.poll(() => page.locator('.header-row').count()).toBe(1);
  await page.getByLabel(/Find among 63 headers/).fill('');
  await page.getByRole('button', { name: /Show more: 23/ }).click();
  await expect.poll(() => page.locator('.header-row').count()).toBe(63);
});
