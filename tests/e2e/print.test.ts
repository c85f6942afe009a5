/** The bench on paper: a sheet that holds everything, on both papers, and nothing of the screen. */

import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { newHeader } from '../../core/header/new-header.ts';
import { largeHeader } from '../bench/large-header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { expectNoFaults, openBench, openDemo } from './page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => await app.end());
afterEach(async () => {
  await app.page.emulateMedia({ media: 'screen' });
  expectNoFaults(app.faults);
});

const LONG_NAME = 'Runner with the long way round the steering shaft, second try after the mount was moved';

/** Eight primaries of twenty pieces, with a name that is longer than its column. */
async function openLarge(): Promise<void> {
  const large = largeHeader(newHeader({ id: 'print-large', name: 'Eight by twenty' }));
  const primaries = large.primaries.map((primary, index) => (index === 0 ? { ...primary, name: LONG_NAME } : primary));
  const made = await app.backend.must('importHeader', { header: { ...large, primaries } });
  await openBench(app.page, made.header.id);
}

const texts = (selector: string) => app.page.locator(selector).allInnerTexts();

describe('the sheet', () => {
  test('has name, day, target, board, three flat views and every piece, and no button or field', async () => {
    await openDemo(app);
    const { page } = app;
    expect(await page.locator('.print-sheet').count()).toBe(0);
    await page.emulateMedia({ media: 'print' });
    await page.locator('.print-sheet').waitFor();
    expect(await texts('.print-head h1')).toEqual(['Hill-climb four']);
    expect(await texts('.print-head p')).toEqual([expect.stringMatching(/^Printed \d+ \w+ \d{4} by Evenrun$/)]);
    expect((await texts('.print-summary'))[0]).toContain('35 1/4"');
    expect(await page.locator('.print-board tbody tr').count()).toBe(4);
    expect(await page.locator('.print-sheet .flat-view').count()).toBe(3);
    expect(await page.locator('.print-primary tbody tr').count()).toBe(9 + 9 + 7 + 7);
    expect(await page.locator('button:visible, input:visible, select:visible, .frame:visible').count()).toBe(0);
    await page.emulateMedia({ media: 'screen' });
    await expect.poll(() => page.locator('.print-sheet').count()).toBe(0);
  });

  // Paper less the margins of the sheet, at 96 pixels an inch.
  test.each([
    ['A4', 703],
    ['Letter', 725],
  ] as const)('of 160 pieces and a long name keeps within %s, names whole', async (format, widthPx) => {
    await openLarge();
    const { page } = app;
    await page.setViewportSize({ width: widthPx, height: 1000 });
    await page.emulateMedia({ media: 'print' });
    await page.locator('.print-sheet').waitFor();
    expect(await page.locator('.print-primary tbody tr').count()).toBe(160);
    expect(await texts('.print-board th[scope="row"]')).toContain(LONG_NAME);
    const beyond = await page.evaluate((limit) => {
      const all = [...document.querySelectorAll<HTMLElement>('.print-sheet :not(svg *)')];
      return all
        .filter((one) => one.getBoundingClientRect().right > limit + 1)
        .map((one) => one.outerHTML.slice(0, 80));
    }, widthPx);
    expect(beyond).toEqual([]);
    // Chromium writes one page object a sheet of paper: eight tables of twenty rows need more than two.
    const pdf = (await page.pdf({ format })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0).toBeGreaterThan(2);
  });
});
