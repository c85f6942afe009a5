/** Sheets on the real host: looked at page by page, then saved as they were shown. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { command, downloadedText, expectNoFaults, headerMenu, openBench, openDemo } from '../../e2e/page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
  headerId = await openDemo(app);
});
afterAll(async () => await app.end());

const pageName = () => app.page.getByRole('img', { name: /, page \d+ of \d+$/ });
const shown = async () => (await pageName().getAttribute('aria-label')) ?? '';

test('the header menu leads to its sheets, and the first page is there', async () => {
  const { page } = app;
  await headerMenu(page, 'Hill-climb four').click();
  await page.getByRole('menuitem', { name: 'Sheets' }).click();
  await page.getByRole('heading', { level: 1, name: 'Sheets' }).waitFor();
  await pageName().waitFor();
  expect(await shown()).toMatch(/^Build sheet, page 1 of [2-9]$/);
  expect(await pageName().locator('text').allTextContents()).toContain('Hill-climb four');
});

test('pages are turned one at a time, and stop at both ends', async () => {
  const { page } = app;
  const next = page.getByRole('button', { name: 'Next page' });
  expect(await page.getByRole('button', { name: 'Previous page' }).isDisabled()).toBe(true);
  const count = Number(/of (\d+)$/.exec(await shown())?.[1]);
  for (let at = 2; at <= count; at += 1) {
    await next.click();
    await page.getByRole('img', { name: `Build sheet, page ${at} of ${count}` }).waitFor();
  }
  expect(await next.isDisabled()).toBe(true);
  expect(await pageName().locator('text').allTextContents()).toContain(`Page ${count} of ${count}`);
});

test('another paper gives other pages', async () => {
  const { page } = app;
  const box = () => pageName().getAttribute('viewBox');
  expect(await box()).toBe('0 0 215.9 279.4');
  await page.getByLabel('Paper').selectOption('a4');
  await page.locator('svg.sheet-page[viewBox="0 0 210 297"]').waitFor();
});

test('the file that is saved holds what was shown', async () => {
  const { page } = app;
  await page.locator('.sheet-preview[aria-busy="false"]').waitFor();
  const pdf = await downloadedText(page, () => page.getByRole('button', { name: 'Save PDF' }).click());
  expect(pdf.startsWith('%PDF-1.7')).toBe(true);
  expect(pdf.match(/\/Type \/Page\b/g)?.length).toBe(Number(/of (\d+)$/.exec(await shown())?.[1]));
  const csv = await downloadedText(page, () => page.getByRole('button', { name: 'Save CSV' }).click());
  const { header } = await app.backend.must('openHeader', { headerId });
  const pieces = header.primaries.reduce((sum, primary) => sum + primary.pieces.length, 0);
  expect(csv.split('\r\n').filter((row) => row.startsWith('piece,'))).toHaveLength(pieces);
});

test('a change on the bench is on the sheet', async () => {
  const { page } = app;
  await openBench(page, headerId);
  await page.keyboard.type('2 1/4');
  await page.keyboard.press('Enter');
  await command(page, 'sheets');
  await pageName().waitFor();
  const { header } = await app.backend.must('openHeader', { headerId });
  const pieces = header.primaries.reduce((sum, primary) => sum + primary.pieces.length, 0);
  await page.locator('svg.sheet-page text', { hasText: `${header.primaries.length}, ${pieces}` }).waitFor();
});

test('letters that cannot be printed are named, and the sign in their place is on the page', async () => {
  const { page } = app;
  const header = { ...demoHeader('letters'), name: 'Впускной 排气管' };
  const imported = await app.backend.must('importHeader', { header });
  await openBench(page, imported.header.id);
  await command(page, 'sheets');
  const words = 'These letters cannot be printed, and \ufffd stands in place of each: 排 气 管';
  await page.getByText(words, { exact: true }).waitFor();
  const texts = await pageName().locator('text').allTextContents();
  expect(texts).toContain('Впускной \ufffd\ufffd\ufffd');
  expect(texts.join('')).not.toContain('管');
  // Drawn by the files of the program, not by whatever this computer has.
  const drawn = () =>
    page.evaluate(() =>
      [...document.fonts].filter((font) => font.status === 'loaded').map(({ family }) => family.replaceAll('"', '')),
    );
  await expect.poll(drawn).toContain('Noto Sans Paper');
});

test('for each weight of paper there are letters of their own', async () => {
  const weights = await app.page.evaluate(() =>
    [...document.fonts].filter(({ family }) => family.includes('Noto Sans Paper')).map(({ weight }) => weight),
  );
  const counted = (weight: string) => weights.filter((one) => one === weight).length;
  // As many files of either; a face whose weight is not understood counts as normal, and stands in the way of the right one.
  expect(counted('400')).toBeGreaterThan(0);
  expect([counted('700'), weights.length]).toEqual([counted('400'), 2 * counted('400')]);
});

test('nothing was refused by the policy, and nothing broke', () => {
  expectNoFaults(app.faults);
});
