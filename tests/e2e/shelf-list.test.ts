/** The shelf taken out as a CSV file, edited in a spreadsheet and brought in again: counts change, nothing is there twice. */

import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { adding, setting } from '../shelf-changes.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { expectNoFaults, openPlace, PLACES } from './page-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  const inch = (value: number) => ({ value, unit: 'in' }) as const;
  const size = { material: '304 stainless', od: inch(1.75), wall: inch(0.065), note: '' };
  const bend = { kind: 'bend', ...size, clr: inch(3), legs: [inch(4), inch(4)] } as const;
  await app.backend.must(
    'changeShelf',
    adding({ ...bend, id: 'b90', angleDeg: 90, count: 4 }, { ...bend, id: 'b45', angleDeg: 45, count: 7 }),
  );
  await openPlace(app.page, PLACES.shelf);
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

async function takenOut(): Promise<string> {
  const saved = await app.backend.must('exportStock', {});
  if (saved.kind !== 'download') throw new Error('the shelf was not handed over');
  return saved.text;
}

async function countsOnDisk(): Promise<Readonly<Record<string, number>>> {
  const { stock } = await app.backend.must('listStock', {});
  return Object.fromEntries(
    stock.map(({ item }) => [item.kind === 'bend' ? item.angleDeg : item.length.value, item.count]),
  );
}

async function offer(name: string, text: string) {
  const chooser = app.page.waitForEvent('filechooser');
  await app.page.getByRole('button', { name: 'Import CSV' }).click();
  await (await chooser).setFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  const dialog = app.page.getByRole('dialog', { name: `Import ${name}` });
  await dialog.getByRole('table').waitFor();
  return dialog;
}

/** As a spreadsheet leaves it: the 90s counted anew, and a straight written below. */
function edited(text: string): string {
  const counted = text.replace(/^(bend,.*),90,(.*),4,/m, '$1,90,$2,6,');
  if (counted === text) throw new Error('there is no line of 90 degree bends to edit');
  return `${counted}straight,304 stainless,1 3/4 in,0.065 in,,,,,48 in,3,\r\n`;
}

test('a list that was edited changes counts and adds what is new; a second time it changes nothing', async () => {
  const list = edited(await takenOut());
  const dialog = await offer('stock.csv', list);
  const row = (words: RegExp) => dialog.getByRole('row', { name: words });
  await row(/bend.*90.*already on the shelf, count 4 → 6/).waitFor();
  await row(/straight.*new/).waitFor();
  await row(/bend.*45.*already on the shelf, no change/).waitFor();
  await dialog.getByRole('button', { name: 'Add 1 line, change 1 count' }).click();
  await app.page.getByText('1 line added to the shelf, 1 count changed.').waitFor();
  expect(await countsOnDisk()).toEqual({ 90: 6, 45: 7, 48: 3 });

  const again = await offer('stock.csv', list);
  await again.getByText('Nothing to import').waitFor();
  expect(await again.getByRole('button', { name: /^(Add|Change)/ }).count()).toBe(0);
  await again.getByRole('button', { name: 'Import nothing' }).click();
  expect(await countsOnDisk()).toEqual({ 90: 6, 45: 7, 48: 3 });
});

test('a count that another window changes meanwhile is not written over', async () => {
  const dialog = await offer('shelf.csv', (await takenOut()).replace(/^(bend,.*),45,(.*),7,/m, '$1,45,$2,9,'));
  const { stock } = await app.backend.must('listStock', {});
  const stored = stock.find(({ item }) => item.id === 'b45');
  if (stored === undefined) throw new Error('the 45s are gone');
  await app.backend.must('changeShelf', setting({ ...stored.item, count: 1 }, stored.revision));
  await dialog.getByRole('button', { name: 'Change 1 count on the shelf' }).click();
  await dialog.getByText('changed in another window').waitFor();
  await dialog.getByRole('button', { name: 'Import nothing' }).click();
  expect(await countsOnDisk()).toMatchObject({ 45: 1 });
});

test('a line with two faults is one line left out', async () => {
  const text = 'kind,material,OD (inches),wall,clr,angle,count\nbend,304,1.75,x,3,y,1\nstraight,304,1.75,0.065,,,1\n';
  const chooser = app.page.waitForEvent('filechooser');
  await app.page.getByRole('button', { name: 'Import CSV' }).click();
  await (await chooser).setFiles({ name: 'faulty.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  const dialog = app.page.getByRole('dialog', { name: 'Import faulty.csv' });
  await dialog.getByRole('heading', { name: '2 lines could not be read and will be left out' }).waitFor();
  expect(await dialog.locator('.import-refused li').count()).toBe(3);
});
