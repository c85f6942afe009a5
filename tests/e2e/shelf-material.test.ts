/** A tube that the shelf has under another name: the settings say so, and one press makes it the same. */

import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { demoHeader } from '../../core/index.ts';
import { adding } from '../shelf-changes.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { entryLine, expectNoFaults, openBench, openDemo, openPanel } from './page-parts.ts';

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

test('what the shelf lacks is marked while it is typed and not refused, its angles are offered, and what the header needs stands beside what is on hand', async () => {
  const { page, backend } = app;
  const inch = (value: number) => ({ value, unit: 'in' }) as const;
  const size = { material: '304 stainless', od: inch(1.75), wall: inch(0.065), note: '' };
  const bend = { kind: 'bend', id: 'shelf-2', ...size, clr: inch(3), angleDeg: 90, legs: [inch(4), inch(4)] } as const;
  await backend.must('changeShelf', adding({ ...bend, count: 2 }));
  await page.reload();
  // One straight is still to be cut.
  const demo = demoHeader('needs');
  const primaries = demo.primaries.map((primary) => ({
    ...primary,
    pieces: primary.pieces.map((piece) => (piece.id === 'piece-3-7' ? { ...piece, state: 'planned' as const } : piece)),
  }));
  const headerId = (await backend.must('importHeader', { header: { ...demo, primaries } })).header.id;
  await openBench(page, headerId);
  await entryLine(page).focus();
  await page.keyboard.type('b9');
  await page.getByRole('option', { name: /b90.*on the shelf/ }).waitFor();
  await page.keyboard.type('0 0 r7');
  await page.locator('.read-back-note').getByText('Not on the shelf in this tube and CLR.').waitFor();
  await page.keyboard.press('Enter');
  await expect
    .poll(async () => {
      const { header } = await backend.must('openHeader', { headerId });
      return header.primaries.flatMap(({ pieces }) => pieces).some((p) => p.kind === 'bend' && p.clr.value === 7);
    })
    .toBe(true);
  await openPanel(page, 'Tables');
  await page.getByRole('tab', { name: 'Needs' }).click();
  await page.getByRole('row', { name: /straights.*none/ }).waitFor();
});
