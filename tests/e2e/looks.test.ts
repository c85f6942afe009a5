/** Light and dark, narrow windows, targets large enough for gloves, and units that change nothing stored. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { digestOf } from '../trust/canonical.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { command, expectNoFaults, openBench, openDemo, openPlace, PLACES, settled } from './page-parts.ts';
import { findTargets } from './targets.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
  headerId = await openDemo(app);
});
afterAll(async () => await app.end());

/** Least width and height in CSS pixels; WCAG 2.2 asks 24 (criterion 2.5.8), gloves 44 (2.5.5). */
const LEAST_PX = { bench: 44, desk: 24 } as const;

/** Every screen of the program by its name, with the way there. */
const SCREENS: Readonly<Record<string, () => Promise<void>>> = {
  bench: () => openBench(app.page, headerId),
  ...Object.fromEntries(Object.entries(PLACES).map(([name, place]) => [name, () => openPlace(app.page, place)])),
};

async function show(theme: 'light' | 'dark', density: 'bench' | 'desk'): Promise<void> {
  await app.backend.must('savePreferences', { preferences: { theme, density } });
  await app.page.reload();
  await app.page.locator('#screen').waitFor();
}

test('dark is darker than light, and the choice outlives a reload', async () => {
  const background = () => app.page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const brightness = (colour: string) =>
    (colour.match(/[\d.]+/g) ?? []).slice(0, 3).reduce((sum, part) => sum + Number(part), 0);
  await show('light', 'desk');
  const light = await background();
  await show('dark', 'desk');
  const dark = await background();
  expect(brightness(dark)).toBeLessThan(brightness(light) / 2);
});

test('what moves stands still where motion is not wanted', async () => {
  const { page } = app;
  await openBench(page, headerId);
  await page.locator('.match-board').waitFor();
  const moving = () =>
    page.evaluate(
      () =>
        [...document.querySelectorAll('*')].filter((element) => {
          const { transitionDuration, animationDuration } = getComputedStyle(element);
          return [transitionDuration, animationDuration]
            .join()
            .split(',')
            .some((time) => Number.parseFloat(time) > 0);
        }).length,
    );
  await page.emulateMedia({ reducedMotion: 'no-preference' });
  expect(await moving()).toBeGreaterThan(0);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  expect(await moving()).toBe(0);
});

describe('at 400 percent, which leaves 320 pixels, nothing needs scrolling sideways', () => {
  for (const [name, open] of Object.entries(SCREENS)) {
    test(name, async () => {
      const { page } = app;
      await page.setViewportSize({ width: 320, height: 640 });
      await open();
      await settled(page);
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(wide).toBe(0);
      await page.setViewportSize({ width: 1366, height: 768 });
    });
  }
});

describe('targets', () => {
  for (const density of ['bench', 'desk'] as const) {
    test(`in ${density} size are at least ${LEAST_PX[density]} px`, async () => {
      await show('light', density);
      const small: string[] = [];
      let seen = 0;
      for (const [name, open] of Object.entries(SCREENS)) {
        await open();
        await settled(app.page);
        const found = await findTargets(app.page, LEAST_PX[density]);
        small.push(...found.small.map((words) => `${name}: ${words}`));
        seen += found.seen;
      }
      expect(seen).toBeGreaterThan(50);
      expect(small).toEqual([]);
    });
  }
});

test('another unit changes what is shown and no stored length', async () => {
  const stored = async () => {
    const { header } = await app.backend.must('openHeader', { headerId });
    const { display, ...settings } = header.settings;
    return { display, digest: digestOf({ ...header, settings }) };
  };
  const before = await stored();
  await openBench(app.page, headerId);
  await app.page.locator('.primary-length').waitFor();
  expect(await app.page.locator('.primary-length').textContent()).toMatch(/"$/);
  await command(app.page, 'millimetres');
  await expect.poll(() => app.page.locator('.primary-length').textContent()).toMatch(/mm$/);
  await expect.poll(async () => (await stored()).display.kind).toBe('mm');
  expect((await stored()).digest).toBe(before.digest);
  expectNoFaults(app.faults);
});
