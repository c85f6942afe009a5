/** What was entered is there after a reload and after a restart of the program, and can still be taken back. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { enterLine, entryLine, expectNoFaults, openDemo, pieceRows, saveMark } from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
  headerId = await openDemo(app);
});
afterAll(async () => await app.end());

async function piecesOnDisk(): Promise<number> {
  const { header } = await app.backend.must('openHeader', { headerId });
  return header.primaries[0]?.pieces.length ?? 0;
}

test('an accepted piece survives a reload', async () => {
  const before = await pieceRows(app.page);
  await entryLine(app.page).focus();
  await enterLine(app.page, '2 3/16');
  await expect.poll(() => saveMark(app.page).textContent()).toBe('All saved');
  await app.page.reload();
  await entryLine(app.page).waitFor();
  await expect.poll(() => pieceRows(app.page)).toHaveLength(before.length + 1);
  expect((await pieceRows(app.page)).at(-1)).toMatch(/2\s3\/16/);
  expectNoFaults(app.faults);
});

test('after a restart the step is undone, and redone, by the same keys', async () => {
  const count = await piecesOnDisk();
  app = await app.restart();
  await entryLine(app.page).waitFor();
  await expect.poll(() => pieceRows(app.page)).toHaveLength(count);
  await entryLine(app.page).focus();
  await app.page.keyboard.press('Control+z');
  await expect.poll(() => pieceRows(app.page)).toHaveLength(count - 1);
  await expect.poll(piecesOnDisk).toBe(count - 1);
  await app.page.keyboard.press('Control+y');
  await expect.poll(piecesOnDisk).toBe(count);
  expectNoFaults(app.faults);
});

test('half-typed text is offered again after a restart', async () => {
  await entryLine(app.page).focus();
  await app.page.keyboard.type('b45 1');
  await expect.poll(async () => (await app.backend.must('openHeader', { headerId })).draft?.text).toBe('b45 1');
  app = await app.restart();
  await entryLine(app.page).waitFor();
  expect(await entryLine(app.page).inputValue()).toBe('b45 1');
});

test('the stage is looked at from where it was left, after a reload and after a restart', async () => {
  const from = async () => {
    const picture = app.page.locator('.view-picture');
    return [await picture.getAttribute('data-azimuth'), await picture.getAttribute('data-elevation')];
  };
  const keptAzimuth = async () => {
    const start = await app.backend.must('start', {});
    const kept = start.state === 'ready' ? start.preferences.standpoints?.at(-1) : undefined;
    return kept?.headerId === headerId && kept.standpoint.kind === 'free' ? kept.standpoint.camera.azimuthDeg : null;
  };
  await app.page.getByRole('toolbar', { name: 'Stage' }).getByRole('button', { name: 'Side' }).click();
  await app.page.getByRole('application').focus();
  await app.page.keyboard.press('ArrowLeft');
  await expect.poll(from).toEqual(['100', '0']);
  await expect.poll(keptAzimuth).toBe(100);
  await app.page.reload();
  await expect.poll(from).toEqual(['100', '0']);
  app = await app.restart();
  await expect.poll(from).toEqual(['100', '0']);
});
