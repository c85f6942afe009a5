/** Two windows on one header: nothing is overwritten, and the one that came late is told and shown both. */

import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp, openWindow } from './app-under-test.ts';
import { enterLine, entryLine, expectNoFaults, goTo, openDemo, pieceRows, saveMark } from './page-parts.ts';

let app: AppUnderTest;
let second: Page;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  headerId = await openDemo(app);
  ({ page: second } = await openWindow(app.context, app.host));
  await goTo(second, `#/bench/${headerId}`);
  await entryLine(second).waitFor();
});
afterAll(async () => await app.end());

async function lengthsOnDisk(): Promise<readonly unknown[]> {
  const { header } = await app.backend.must('openHeader', { headerId });
  return (
    header.primaries[0]?.pieces.map((piece) => (piece.kind === 'straight' ? piece.length.value : piece.kind)) ?? []
  );
}

test('the later window is shown both versions, and can make its steps on top', async () => {
  const before = await lengthsOnDisk();
  // Held back, so that the second window cannot have seen the first one's step when it makes its own.
  app.gate.hold('readRevision');
  await entryLine(app.page).focus();
  await enterLine(app.page, '1 1/8');
  await expect.poll(() => saveMark(app.page).textContent()).toBe('All saved');
  await second.bringToFront();
  await entryLine(second).focus();
  await enterLine(second, '2 1/8');
  const dialog = second.getByRole('dialog', { name: 'This header was changed in another window' });
  await dialog.waitFor();
  expect(await dialog.getByRole('region', { name: 'On disk' }).textContent()).not.toBe(
    await dialog.getByRole('region', { name: 'In this window' }).textContent(),
  );
  expect(await lengthsOnDisk()).toEqual([...before, 1.125]);
  app.gate.open();
  await dialog.getByRole('button', { name: 'Reapply my changes to theirs' }).click();
  // Both were put in at the same place, so either may stand first.
  await expect.poll(async () => new Set((await lengthsOnDisk()).slice(before.length))).toEqual(new Set([1.125, 2.125]));
  await expect.poll(() => pieceRows(second)).toHaveLength(before.length + 2);
});

test('a window that did nothing is shown the change of the other', async () => {
  const count = (await lengthsOnDisk()).length;
  await app.page.bringToFront();
  await expect.poll(() => pieceRows(app.page)).toHaveLength(count);
  expectNoFaults(app.faults);
});
