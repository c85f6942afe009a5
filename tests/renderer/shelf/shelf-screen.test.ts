/** The shelf on the real store, worked from the keyboard, and its CSV in and out. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { downloadedText, expectNoFaults, goTo } from '../../e2e/page-parts.ts';
import { adding } from '../../shelf-changes.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp();
  await goTo(app.page, '#/shelf');
  await app.page.getByLabel('Material of a new bend').waitFor();
});
afterAll(async () => await app.end());

const stock = async () => (await app.backend.must('listStock', {})).stock.map(({ item }) => item);
const bends = async () =>
  (await stock()).filter((item) => item.kind === 'bend').sort((a, b) => a.angleDeg - b.angleDeg);

async function typeRow(cells: readonly string[]): Promise<void> {
  for (const [at, cell] of cells.entries()) {
    await app.page.keyboard.type(cell);
    await app.page.keyboard.press(at === cells.length - 1 ? 'Enter' : 'Tab');
  }
}

test('a row is typed with Tab and Enter, and the next one needs only what differs', async () => {
  const { page } = app;
  await page.getByLabel('Material of a new bend').focus();
  await typeRow(['304 stainless', '1 3/4', '16 ga', '3', '90', '4', '4', '6']);
  await expect.poll(async () => (await bends()).length).toBe(1);
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-cell'))).toBe('0:angle');
  await page.getByText('"16 ga" is read as a wall of 0.065"').waitFor();
  await typeRow(['45']);
  await expect
    .poll(async () => (await bends()).map(({ angleDeg, count, clr }) => [angleDeg, count, clr.value]))
    .toEqual([
      [45, 1, 3],
      [90, 6, 3],
    ]);
});

test('a dozen bends take under 60 keys once the tube stands', async () => {
  const { page } = app;
  const before = (await bends()).length;
  let keys = 0;
  const press = async (key: string) => {
    keys += 1;
    await page.keyboard.press(key);
  };
  await press('Control+e');
  for (let angle = 21; angle <= 32; angle += 1) for (const key of [...String(angle), 'Enter']) await press(key);
  await expect.poll(async () => (await bends()).length).toBe(before + 12);
  expect(keys).toBeLessThan(60);
  for (let taken = 0; taken < 12; taken += 1) {
    await page.getByLabel('Angle of a new bend').focus();
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await bends()).length).toBe(before + 11 - taken);
  }
});

test('what cannot be read stays in its field with the reason, and nothing is added', async () => {
  const { page } = app;
  await expect.poll(() => page.getByLabel('Angle of a new bend').inputValue()).toBe('');
  await page.getByLabel('Angle of a new bend').focus();
  await typeRow(['4x']);
  await page.locator('.field-problem').waitFor();
  expect(await page.locator('.field-problem').textContent()).toContain('4x');
  expect(await page.getByLabel('Angle of a new bend').inputValue()).toBe('4x');
  expect(await bends()).toHaveLength(2);
  await page.getByLabel('Angle of a new bend').fill('');
});

test('a cell is typed over in place; Escape leaves it as it was', async () => {
  const { page } = app;
  const count = page.getByLabel('Count of 304 stainless 1 3/4" bend, CLR 3", 90 degrees');
  await count.fill('7');
  await page.keyboard.press('Escape');
  expect(await count.inputValue()).toBe('6');
  await count.fill('seven');
  await page.keyboard.press('Enter');
  await page.locator('.field-problem').waitFor();
  expect((await bends()).at(-1)?.count).toBe(6);
  await count.fill('7');
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await bends()).at(-1)?.count).toBe(7);
  expect(await page.locator('.field-problem').count()).toBe(0);
});

test('two cells changed in a hurry are both kept', async () => {
  const { page } = app;
  const of = 'of 304 stainless 1 3/4" bend, CLR 3", 45 degrees';
  await page.getByLabel(`Count ${of}`).fill('12');
  await page.getByLabel(`Note ${of}`).fill('long radius end');
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await bends())[0]).toMatchObject({ count: 12, note: 'long radius end' });
});

test('what is removed can be put back as it was', async () => {
  const { page } = app;
  const before = await bends();
  await page.getByLabel('Count of 304 stainless 1 3/4" bend, CLR 3", 45 degrees').focus();
  await page.keyboard.press('Control+Delete');
  await expect.poll(async () => (await bends()).length).toBe(1);
  await page.getByRole('button', { name: 'Put it back' }).click();
  await expect.poll(bends).toEqual(before);
});

test('every step is taken back and done again, from the keyboard too, and a count is explained', async () => {
  const { page } = app;
  const before = await bends();
  const of = 'of 304 stainless 1 3/4" bend, CLR 3", 45 degrees';
  await page.getByLabel(`Count ${of}`).fill('9');
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await bends())[0]?.count).toBe(9);
  await page.getByRole('button', { name: /^Undo: Count 304 stainless.*12 to 9/ }).waitFor();
  await page.keyboard.press('Control+z');
  await expect.poll(bends).toEqual(before);
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(async () => (await bends())[0]?.count).toBe(9);
  await page.getByLabel(`Count ${of}`).focus();
  await page.keyboard.press('Alt+Enter');
  const dialog = page.getByRole('dialog', { name: 'Why this count' });
  await dialog
    .getByRole('row', { name: /taken back/ })
    .first()
    .waitFor();
  expect(await dialog.getByRole('row').first().textContent()).toContain('Why');
  expect(await dialog.getByRole('row', { name: /counted.*9/ }).count()).toBe(2);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /^Undo: Count/ }).click();
  await expect.poll(bends).toEqual(before);
});

test('cells of a spreadsheet go over the rows from the focused field on, whole or not at all', async () => {
  const { page } = app;
  const paste = async (text: string) =>
    await page.evaluate((pasted) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData('text/plain', pasted);
      document.activeElement?.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
      );
    }, text);
  await page.getByLabel('Count of 304 stainless 1 3/4" bend, CLR 3", 45 degrees').focus();
  await paste('3\t2\t$17.50\n5\tfour');
  await page.getByText(/Nothing was pasted. Row 2: .*four/).waitFor();
  expect((await bends()).map(({ count }) => count)).toEqual([12, 7]);
  await paste('1\t2\t$17.50\n5\t4\t12,50 €\n');
  await expect
    .poll(async () => (await bends()).map(({ count, least, cost }) => [count, least, cost]))
    .toEqual([
      [1, 2, 17.5],
      [5, 4, 12.5],
    ]);
  // One is fewer than the two that are wanted.
  await page.getByText('low', { exact: true }).waitFor();
  await page.getByLabel('Show').selectOption('low');
  await expect.poll(() => page.locator('tr[data-place]').count()).toBe(1);
  await page.getByLabel('Show').selectOption('all');
  await page.getByRole('button', { name: /^Undo: Change 2 rows/ }).click();
  await expect.poll(async () => (await bends()).map(({ count }) => count)).toEqual([12, 7]);
});

test('rows pasted into the new row are added in one step', async () => {
  const { page } = app;
  await page.getByLabel('Material of a new bend').focus();
  await page.evaluate(() => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', 'mild steel\t1 3/4\t0.065\t3\t30\nmild steel\t1 3/4\t0.065\t3\t20\t\t\t2');
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
    );
  });
  await expect.poll(async () => (await bends()).map(({ angleDeg }) => angleDeg)).toEqual([20, 30, 45, 90]);
  await page.getByRole('button', { name: /^Undo: Add 2 rows/ }).click();
  await expect.poll(async () => (await bends()).length).toBe(2);
});

test('a CSV is shown with its refused lines, and nothing is on the shelf before it is accepted', async () => {
  const { page } = app;
  const text = [
    'kind,material,od,wall,clr,angle,leg_a,leg_b,length,count,note',
    'straight,mild steel,1 3/4 in,0.065 in,,,,,48 in,3,',
    'bend,mild steel,1 3/4 in,0.065 in,0.5,90,,,,1,',
    'bend,mild steel,44.45 mm,1.65 mm,76.2 mm,60,100 mm,,,2,"a, b"',
  ].join('\n');
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Import CSV' }).click();
  await (await chooser).setFiles({ name: 'stock.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  const dialog = page.getByRole('dialog', { name: 'Import stock.csv' });
  await dialog.getByText('1 line could not be read and will be left out').waitFor();
  expect(await dialog.textContent()).toMatch(/Line 3, clr/);
  expect(await stock()).toHaveLength(2);
  await dialog.getByRole('button', { name: 'Add 2 lines to the shelf' }).click();
  await expect.poll(async () => (await stock()).length).toBe(4);
  await page.getByLabel(/Length of mild steel 1 3\/4" straight/).waitFor();
});

test('the shelf leaves as a CSV that has every line of it', async () => {
  const { page } = app;
  const text = await downloadedText(page, () => page.getByRole('button', { name: 'Export CSV' }).click());
  const content = Buffer.from(text).toString('base64');
  const read = await app.backend.must('previewFile', { fileName: 'shelf.csv', content, expect: 'stock', unit: 'mm' });
  const plain = (items: Awaited<ReturnType<typeof stock>>) =>
    items.map((item) => JSON.stringify({ ...item, id: '' })).sort();
  expect(read.kind === 'stock' && plain(read.items)).toEqual(plain(await stock()));
  expectNoFaults(app.faults);
});

test('of 20,000 rows only those in sight are drawn; the last is reached, and text not yet accepted outlives the scrolling', async () => {
  const { page, backend } = app;
  const [first] = await bends();
  if (first === undefined) throw new Error('there is no bend');
  const many = Array.from({ length: 19_990 }, (_, at) => ({
    ...first,
    id: `many-${at}`,
    material: 'zinc',
    note: `${at}`,
    angleDeg: 1 + at / 100,
  }));
  await backend.must('changeShelf', adding(...many));
  await page.reload();
  await page.getByText(/^[\d,]+ rows/).waitFor();
  const typed = page.getByLabel('Note of 304 stainless 1 3/4" bend, CLR 3", 90 degrees');
  await typed.fill('half');
  await page.locator('.shelf-scroll').evaluate((scroller) => scroller.scrollTo(0, scroller.scrollHeight));
  await page.getByLabel(/Length of mild steel 1 3\/4" straight/).waitFor();
  expect(await page.locator('tr[data-place]').count()).toBeLessThan(90);
  expect(await typed.inputValue()).toBe('half');
  await page.getByLabel('Find on the shelf').fill('zinc 19989');
  await expect.poll(() => page.locator('tr[data-place]').count()).toBe(1);
  expectNoFaults(app.faults);
});
