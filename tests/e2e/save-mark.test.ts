/** The save mark says what is true: saved only after the backend has committed. */

import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { enterLine, entryLine, expectNoFaults, framesDrawn, openDemo, saveMark } from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  headerId = await openDemo(app);
  await entryLine(app.page).focus();
});
afterAll(async () => await app.end());

async function piecesOnDisk(): Promise<number> {
  const { header } = await app.backend.must('openHeader', { headerId });
  return header.primaries[0]?.pieces.length ?? 0;
}

test('while the commit is under way it says Saving, however long that takes', async () => {
  const before = await piecesOnDisk();
  app.gate.hold('commitSteps');
  await enterLine(app.page, '1 1/2');
  await expect.poll(() => saveMark(app.page).textContent()).toBe('Saving…');
  // However many frames go by.
  await framesDrawn(app.page, 30);
  expect(await saveMark(app.page).textContent()).toBe('Saving…');
  expect(await piecesOnDisk()).toBe(before);
  app.gate.open();
  await expect.poll(() => saveMark(app.page).textContent()).toBe('All saved');
  expect(await piecesOnDisk()).toBe(before + 1);
});

test('while the backend is gone it says Not saved, and all is saved once, when it is back', async () => {
  // The host reports each broken call where developers look.
  const reported = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const before = await piecesOnDisk();
  app.gate.break();
  await enterLine(app.page, '2');
  await expect.poll(() => saveMark(app.page).textContent()).toMatch(/^Not saved: /);
  await enterLine(app.page, '3');
  expect(await saveMark(app.page).textContent()).toMatch(/^Not saved: /);
  expect(await piecesOnDisk()).toBe(before);
  app.gate.open();
  await expect.poll(() => saveMark(app.page).textContent()).toBe('All saved');
  expect(await piecesOnDisk()).toBe(before + 2);
  expect(reported).toHaveBeenCalled();
  reported.mockRestore();
  expectNoFaults(app.faults);
});
