/** As-built and pulses by keyboard: readings typed, the wrong entry found and put right, the engine said, a tuned target taken. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { command, expectNoFaults, openDemo, openPanel } from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  headerId = await openDemo(app);
});
afterAll(async () => await app.end());

const text = async (selector: string) =>
  ((await app.page.locator(selector).textContent()) ?? '').replaceAll('\u2009', ' ');
const documentNow = async () => (await app.backend.must('openHeader', { headerId })).header;

async function type(label: string, value: string): Promise<void> {
  const field = app.page.getByLabel(label, { exact: true });
  await field.focus();
  await app.page.keyboard.press('Control+a');
  await app.page.keyboard.type(value);
  await app.page.keyboard.press('Enter');
}

test('a tube that is as its pieces say agrees', async () => {
  const { page } = app;
  await page.keyboard.press('Alt+4');
  await openPanel(page, 'As-built');
  // 24 1/4 in of straights and 210 degrees of 3 in CLR bends in 1 3/4 in tube: 38.45 in outside, 35.25 in down the middle.
  await type('Tape along the outside (in)', '38.45');
  await type('String or wire down the middle (in)', '35 1/4');
  const found = page.getByRole('region', { name: 'Wrong entry' }).getByRole('status');
  await expect.poll(() => found.textContent()).toBe('The tube agrees with its pieces; nothing to look for.');
  await expect
    .poll(async () => (await documentNow()).primaries[3]?.measured)
    .toEqual([
      { kind: 'outsideTape', length: { value: 38.45, unit: 'in' }, within: { value: 0.125, unit: 'in' } },
      { kind: 'centreline', length: { value: 35.25, unit: 'in' }, within: { value: 0.25, unit: 'in' } },
    ]);
});

test('a row of a table has its line all the way across', async () => {
  const lines = await app.page
    .locator('.asbuilt .table tbody tr')
    .evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => getComputedStyle(cell).borderTopWidth)));
  expect(lines.length).toBeGreaterThan(4);
  expect(new Set(lines.flat())).toEqual(new Set(['1px']));
});

test('45 entered for 90 is named, put right by one press, and taken back by undo', async () => {
  const { page } = app;
  const angle = page.locator('[data-row="1"][data-column="2"]');
  await angle.click();
  await page.keyboard.type('45');
  await page.keyboard.press('Enter');
  const entries = page.locator('.asbuilt-entries li');
  await expect.poll(() => entries.first().textContent()).toContain('Piece 2: 90° rather than 45°');
  expect(await text('.asbuilt')).toMatch(/longer than its pieces/);
  await entries.first().getByRole('button', { name: 'Put it right' }).press('Enter');
  const found = page.getByRole('region', { name: 'Wrong entry' }).getByRole('status');
  await expect.poll(() => found.textContent()).toBe('The tube agrees with its pieces; nothing to look for.');
  await expect.poll(async () => (await documentNow()).primaries[3]?.pieces[1]).toMatchObject({ angleDeg: 90 });
  await command(page, 'Undo');
  await expect.poll(() => entries.first().textContent()).toContain('Piece 2: 90° rather than 45°');
  await command(page, 'Undo');
  await expect.poll(() => found.textContent()).toBe('The tube agrees with its pieces; nothing to look for.');
});

test("the joint to watch follows the shop's own tolerances", async () => {
  const { page } = app;
  const part = page.getByRole('region', { name: 'Which joint to watch' });
  await expect.poll(() => part.textContent()).toContain('Watch the joint before piece');
  const before = await part.textContent();
  await type('Clocked within ± (°)', '0.25');
  await expect.poll(() => part.textContent()).not.toBe(before);
  await expect.poll(async () => (await documentNow()).tolerances?.clockingDeg).toBe(0.25);
});

test('a reading that cannot be read is said at the field, and what was typed stays', async () => {
  await type('Filled with water (ml)', 'a jug');
  const field = app.page.getByLabel('Filled with water (ml)', { exact: true });
  expect(await field.inputValue()).toBe('a jug');
  await expect.poll(() => text('.asbuilt-fields .field-problem')).toContain('1250 ml or 76 in3');
  await field.focus();
  for (const key of ['Control+a', 'Delete', 'Enter']) await app.page.keyboard.press(key);
  await expect.poll(() => app.page.locator('.asbuilt-fields .field-problem').count()).toBe(0);
});

test('pulses follow the firing order that is typed, and are drawn', async () => {
  const { page } = app;
  await openPanel(page, 'Pulses');
  await expect.poll(() => page.locator('.pulse-mark').count()).toBe(8);
  await type('Firing order', '1-3-4');
  await expect.poll(() => text('.gas-fields .field-problem')).toContain('no cylinder 2');
  await type('Firing order', '1-2-4-3');
  await expect.poll(async () => (await documentNow()).engine?.firingOrder).toEqual([1, 2, 4, 3]);
  await type('Engine speed (rpm)', '9000');
  await expect.poll(() => text('.gas-collector figcaption')).toContain('Primary 1, Primary 2, Primary 4, Primary 3');
});

test('an engine that fires unevenly is typed too, checked, and fires evenly again', async () => {
  const field = 'Firing intervals (°), or even';
  await type(field, '270-180-90-170');
  await expect
    .poll(() => text('.gas-fields .field-problem'))
    .toContain('add up to 720, two turns of the crank; it is 710');
  await type(field, '270-180-90-180');
  await expect.poll(async () => (await documentNow()).engine?.firingIntervalsDeg).toEqual([270, 180, 90, 180]);
  await expect
    .poll(() => text('.gas-collector figcaption'))
    .toContain('Apart by 270° 180° 90° 180° with equal lengths');
  await type(field, 'even');
  await expect.poll(async () => 'firingIntervalsDeg' in ((await documentNow()).engine ?? {})).toBe(false);
  await app.page
    .getByLabel('Engine', { exact: true })
    .selectOption({ label: 'Four in line, cross-plane crank: 1-3-2-4, 270-180-90-180°' });
  await expect.poll(async () => (await documentNow()).engine?.firingOrder).toEqual([1, 3, 2, 4]);
  await expect.poll(() => text('section.gas')).toContain('Fires 270° 180° 90° 180° apart.');
});

test('a tuned target is a choice of target, marked a starting point', async () => {
  const { page } = app;
  await openPanel(page, 'Settings');
  await page.getByLabel('Match every primary to').selectOption({ label: 'Tuned starting point' });
  await expect.poll(() => text('.gas-tuned [role="status"]')).toContain('A starting point:');
  await type('Tuned to (rpm)', '7000');
  // 850 x (180 + 70) / 7000 - 3 = 27.357 in from the valve, 3 in of port: 24.357, or 24 3/8.
  await expect.poll(() => text('.gas-tuned [role="status"]')).toContain('24 3/8" from flange face to collector');
  await expect.poll(() => text('.match-summary')).toContain('tuned start');
  await expect
    .poll(async () => (await documentNow()).settings.target)
    .toMatchObject({ kind: 'typed', length: { value: 24.375, unit: 'in' } });
  await type('Target length (in)', '25');
  await expect
    .poll(async () => (await documentNow()).settings.target)
    .toEqual({ kind: 'typed', length: { value: 25, unit: 'in' } });
  expectNoFaults(app.faults);
});
