/** A tube that the shelf has under another name: the settings say so, and one press makes it the same. */

import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { adding } from '../shelf-changes.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { expectNoFaults, openDemo, openPanel } from './page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

test('another name of the same tube is told, and taken by one press', async () => {
  const inch = (value: number) => ({ value, unit: 'in' }) as const;
  const size = { material: '304', od: inch(1.75), wall: inch(0.065) };
  const bend = { kind: 'bend', id: 'shelf-1', ...size, clr: inch(3), angleDeg: 180, legs: [inch(4), inch(4)] } as const;
  await app.backend.must('changeShelf', adding({ ...bend, count: 3, note: '' }));
  await app.page.reload();
  const headerId = await openDemo(app);
  const { page } = app;
  const offShelf = page.locator('.off-shelf');
  await expect.poll(() => offShelf.count()).toBeGreaterThan(0);
  await openPanel(page, 'Settings');
  await page.getByText('is listed under another name').waitFor();
  await page.getByRole('button', { name: 'Use 304 (1 row)' }).click();
  await expect.poll(() => offShelf.count()).toBe(0);
  expect(await page.getByText('is listed under another name').count()).toBe(0);
  await expect
    .poll(async () => (await app.backend.must('openHeader', { headerId })).header.settings.tube.material)
    .toBe('304');
});
