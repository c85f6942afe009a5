/** Help in a real page: the pictures of shape are drawn, and every caution says where it is from. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { expectNoFaults, goTo } from '../../e2e/page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp();
});
afterAll(async () => await app.end());

test('the page on shape covers every tab of the panel, with pictures that the program draws', async () => {
  const { page } = app;
  await goTo(page, '#/help/shape');
  await page.getByRole('img', { name: 'Forward, outboard and up at a port' }).waitFor();
  await page.getByRole('img', { name: /clocked 60 degrees/ }).waitFor();
  await expect.poll(() => page.locator('.flat-view .flat-tube').count()).toBeGreaterThan(10);
  // The colours of the view hold here, too: a stroke that has none is not drawn at all.
  const stroke = () =>
    page
      .locator('.flat-fill')
      .first()
      .evaluate((tube) => getComputedStyle(tube).stroke);
  await expect.poll(stroke).toMatch(/^rgb/);
  expect(await page.locator('article h2').allInnerTexts()).toEqual([
    'Ports and inlets',
    'Clocking',
    'Closure',
    'Clearance and obstacles',
    'Tables',
    'Other bank',
  ]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wide).toBeLessThanOrEqual(0);
  expectNoFaults(app.faults);
});

test('every caution is followed by its source', async () => {
  const { page } = app;
  await goTo(page, '#/help/cautions');
  await page.getByRole('heading', { name: 'Fumes' }).waitFor();
  const sources = await page.locator('.help-source').allInnerTexts();
  expect(sources).toHaveLength(await page.locator('article h2').count());
  for (const named of ['29 CFR 1910.1026', 'OC 288/6', '94AK012', 'NFPA 484', 'ANSI Z49.1', '203(a)(3)']) {
    expect(sources.join(' ')).toContain(named);
  }
});
