/** A parts list is shown before any of it is kept, with every line that could not be read and why. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { expectNoFaults, openDemo } from './page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp();
  await app.page.getByRole('button', { name: 'Import a file' }).waitFor();
});
afterAll(async () => await app.end());

/** Lines 3 and 5, as a spreadsheet counts them, cannot be read. */
const PARTS = [
  'primary,kind,length,angle,clocking,clr',
  '1,straight,2 1/4,,,',
  '1,straight,3 5/,,,',
  '1,bend,,90,60,3',
  '2,bend,,-20,0,3',
  '2,straight,4,,,',
].join('\n');

async function headersOnDisk(): Promise<number> {
  return (await app.backend.must('listHeaders', { place: 'bench' })).headers.length;
}

async function offerFile(name: string, text: string): Promise<void> {
  const chooser = app.page.waitForEvent('filechooser');
  await app.page.keyboard.press('Control+o');
  await (await chooser).setFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
}

test('refused lines are named with their reason, and nothing is kept until it is accepted', async () => {
  const { page } = app;
  await offerFile('four parts.csv', PARTS);
  const dialog = page.getByRole('dialog', { name: 'Import four parts.csv' });
  const accept = dialog.getByRole('button', { name: 'Make a header of 2 primaries' });
  await accept.waitFor();
  const words = await dialog.textContent();
  expect(words).toMatch(/\b3\b[\s\S]*3 5\//);
  expect(words).toMatch(/\b5\b[\s\S]*-?20/);
  expect(await headersOnDisk()).toBe(0);
  await accept.click();
  await expect.poll(headersOnDisk).toBe(1);
  const [summary] = (await app.backend.must('listHeaders', { place: 'bench' })).headers;
  const { header } = await app.backend.must('openHeader', { headerId: summary?.headerId ?? '' });
  expect(header.primaries.map(({ name, pieces }) => [name, pieces.map(({ kind }) => kind)])).toEqual([
    ['1', ['straight', 'bend']],
    ['2', ['straight']],
  ]);
});

test('a parts list is added to the open header once it was seen, and one undo takes it out', async () => {
  const { page } = app;
  const headerId = await openDemo(app);
  const primariesOf = async () => (await app.backend.must('openHeader', { headerId })).header.primaries.length;
  const before = await primariesOf();
  await offerFile('four parts.csv', PARTS);
  const add = page.getByRole('dialog').getByRole('button', { name: 'Add 2 primaries to Hill-climb four' });
  await add.waitFor();
  expect(await primariesOf()).toBe(before);
  await add.click();
  await expect.poll(primariesOf).toBe(before + 2);
  expect(new URL(page.url()).hash).toBe(`#/bench/${headerId}`);
  await page.getByText('2 primaries added to Hill-climb four').waitFor();
  await page.keyboard.press('Control+z');
  await expect.poll(primariesOf).toBe(before);
});

test('the question for a file stands in the page until it is answered, so that it cannot be collected as garbage', async () => {
  const { page } = app;
  const questions = page.locator('input[type=file]');
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('Control+o');
  const asked = await chooser;
  expect(await questions.count()).toBe(1);
  await asked.setFiles({ name: 'asked.csv', mimeType: 'text/csv', buffer: Buffer.from(PARTS) });
  const dialog = page.getByRole('dialog', { name: 'Import asked.csv' });
  await dialog.getByRole('button', { name: 'Import nothing' }).click();
  expect(await questions.count()).toBe(0);
});

test('a file that is no header changes nothing and says why', async () => {
  const before = await headersOnDisk();
  await offerFile('broken.json', '{"format":"evenrun-header","version":1,"header":');
  const dialog = app.page.getByRole('dialog', { name: 'Import broken.json' });
  await expect.poll(() => dialog.textContent()).toMatch(/Nothing could be taken from this file/);
  expect(await dialog.getByRole('button', { name: /Import as/ }).count()).toBe(0);
  await dialog.getByRole('button', { name: 'Import nothing' }).click();
  expect(await headersOnDisk()).toBe(before);
  expectNoFaults(app.faults);
});
