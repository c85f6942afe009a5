/** Rows of the grid in a real page: selecting several, dragging, menus, states, notes and kinds, by pointer and by key. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { entryLine, expectNoFaults } from '../../e2e/page-parts.ts';
import { benchWith, bend, cell, column, copiedText, pasteText, selectedRowsOf, straight } from './rows-in-hand.ts';

let app: AppUnderTest;
const press = (key: string) => app.page.keyboard.press(key);
const sizes = () => column(app.page, 'size');
const states = () => column(app.page, 'state');
const selected = () => selectedRowsOf(app.page);
const SIX = () => [1, 2, 3, 4, 5, 6].map((value) => straight(`s${value}`, value));

beforeAll(async () => {
  app = await launchApp();
  await app.backend.must('savePreferences', { preferences: { theme: 'light', density: 'desk' } });
  await app.page.reload();
});
afterAll(async () => {
  expectNoFaults(app.faults);
  await app.end();
});

async function middleOf(row: number, place: number): Promise<{ x: number; y: number }> {
  const at = cell(app.page, row, place);
  await at.scrollIntoViewIfNeeded();
  const box = await at.boundingBox();
  if (box === null) throw new Error(`no cell in row ${row}`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Drags from one cell to a place of another, in steps as a hand does. */
async function drag(from: [row: number, column: number], to: [row: number, column: number], part = 0.5): Promise<void> {
  const { mouse } = app.page;
  const start = await middleOf(...from);
  const box = await cell(app.page, ...to).boundingBox();
  if (box === null) throw new Error('no cell to drag to');
  await mouse.move(start.x, start.y);
  await mouse.down();
  await mouse.move(box.x + box.width / 2, box.y + box.height * part, { steps: 8 });
  await mouse.up();
}

const pageSelection = () => app.page.evaluate(() => getSelection()?.toString() ?? '');

describe('several rows', () => {
  test('Shift and a click, Ctrl and a click, and drawing over rows select rows, never the text of the page', async () => {
    await benchWith(app, SIX());
    await cell(app.page, 1, 2).click();
    await cell(app.page, 3, 2).click({ modifiers: ['Shift'] });
    expect(await selected()).toEqual([1, 2, 3]);
    await cell(app.page, 5, 2).click({ modifiers: ['Control'] });
    expect(await selected()).toEqual([1, 2, 3, 5]);
    await cell(app.page, 2, 2).click({ modifiers: ['Control'] });
    expect(await selected()).toEqual([1, 3, 5]);
    await drag([0, 2], [3, 3]);
    expect(await selected()).toEqual([0, 1, 2, 3]);
    expect(await pageSelection()).toBe('');
    await cell(app.page, 4, 2).click();
    expect(await selected()).toEqual([4]);
  });

  test('are marked welded in four presses of click and key, and taken back by one undo', async () => {
    await benchWith(app, SIX());
    await cell(app.page, 0, 6).click();
    await cell(app.page, 5, 6).click({ modifiers: ['Shift'] });
    await press('w');
    await expect.poll(states).toEqual(Array(6).fill('● welded'));
    await press('Control+z');
    await expect.poll(states).toEqual(Array(6).fill('◑ tacked'));
  });

  test('are deleted, moved and duplicated together, and stay selected where they went', async () => {
    await benchWith(app, SIX());
    await cell(app.page, 1, 2).click();
    await press('Shift+ArrowDown');
    await press('Alt+ArrowDown');
    await expect.poll(sizes).toEqual(['1', '4', '2', '3', '5', '6']);
    expect(await selected()).toEqual([2, 3]);
    await press('Control+d');
    await expect.poll(sizes).toEqual(['1', '4', '2', '3', '2', '3', '5', '6']);
    expect(await selected()).toEqual([4, 5]);
    await press('Delete');
    await expect.poll(sizes).toEqual(['1', '4', '2', '3', '5', '6']);
  });
});

describe('dragging a row by its number', () => {
  test('moves it, or all that are selected, to where the line shows', async () => {
    await benchWith(app, SIX());
    await drag([0, 0], [2, 0], 0.9);
    await expect.poll(sizes).toEqual(['2', '3', '1', '4', '5', '6']);
    await cell(app.page, 3, 2).click();
    await cell(app.page, 5, 2).click({ modifiers: ['Control'] });
    await drag([5, 0], [0, 0], 0.1);
    await expect.poll(sizes).toEqual(['4', '6', '2', '3', '1', '5']);
    expect(await selected()).toEqual([0, 1]);
    expect(await pageSelection()).toBe('');
    await press('Control+z');
    await expect.poll(sizes).toEqual(['2', '3', '1', '4', '5', '6']);
  });
});

describe('the state of a piece', () => {
  test('a tap, Space or a letter elsewhere never takes the weld off', async () => {
    await benchWith(app, [straight('a', 1, 'welded'), straight('b', 2)]);
    await cell(app.page, 0, 6).click();
    await cell(app.page, 0, 6).click();
    await app.page.getByRole('menu').waitFor();
    expect(await states()).toEqual(['● welded', '◑ tacked']);
    await press('Escape');
    await app.page.getByRole('menu').waitFor({ state: 'detached' });
    await expect.poll(() => app.page.evaluate(() => document.activeElement?.getAttribute('data-column'))).toBe('6');
    await press('Home');
    await press('s');
    await press('Escape');
    expect(await states()).toEqual(['● welded', '◑ tacked']);
  });

  test('is chosen from the menu that Space opens', async () => {
    await benchWith(app, [straight('a', 1), straight('b', 2)]);
    await cell(app.page, 0, 2).click();
    await press(' ');
    await app.page.getByRole('menuitem', { name: 'cut' }).click();
    await expect.poll(states).toEqual(['◔ cut', '◑ tacked']);
  });

  test('a copy of a welded piece is planned; what is cut out and put in again stays as it was', async () => {
    await benchWith(app, [straight('a', 1, 'welded'), straight('b', 2)]);
    await cell(app.page, 0, 2).click();
    const copied = await copiedText(app.page);
    await pasteText(app.page, copied);
    await expect.poll(states).toEqual(['● welded', '○ planned', '◑ tacked']);
    const cut = await copiedText(app.page, 'cut');
    await expect.poll(states).toEqual(['○ planned', '◑ tacked']);
    await pasteText(app.page, cut);
    await expect.poll(states).toEqual(['○ planned', '● welded', '◑ tacked']);
  });
});

describe('the menu of a row', () => {
  test('opens at the pointer for the rows selected, and by the menu key for the one in hand', async () => {
    await benchWith(app, SIX());
    await cell(app.page, 1, 2).click();
    await cell(app.page, 2, 2).click({ modifiers: ['Shift'] });
    await cell(app.page, 2, 1).click({ button: 'right' });
    expect(await selected()).toEqual([1, 2]);
    await app.page.getByRole('menu', { name: '2 pieces' }).waitFor();
    await app.page.getByRole('menuitem', { name: /^Delete/ }).click();
    await expect.poll(sizes).toEqual(['1', '4', '5', '6']);
    await cell(app.page, 3, 2).click();
    await press('Shift+F10');
    await app.page.getByRole('menuitem', { name: /^Duplicate/ }).click();
    await expect.poll(sizes).toEqual(['1', '4', '5', '6', '6']);
    await cell(app.page, 0, 2).click({ button: 'right' });
    expect(await selected()).toEqual([0]);
    await app.page.getByRole('menuitem', { name: /^Insert before/ }).click();
    await expect.poll(() => entryLine(app.page).evaluate((line) => line === document.activeElement)).toBe(true);
  });

  test('opens under a finger that is held still', async () => {
    await benchWith(app, SIX());
    const { x, y } = await middleOf(1, 1);
    const point = { pointerId: 7, pointerType: 'touch', isPrimary: true, button: 0, clientX: x, clientY: y };
    await cell(app.page, 1, 1).dispatchEvent('pointerdown', { ...point, bubbles: true });
    await app.page.getByRole('menu', { name: 'This piece' }).waitFor();
    expect(await selected()).toEqual([1]);
    await press('Escape');
  });

  test('changes the kind of a piece: what it keeps stands there, the rest is typed', async () => {
    await benchWith(app, [straight('a', 1), bend('b', 60)]);
    await cell(app.page, 1, 2).click({ button: 'right' });
    await app.page.getByRole('menuitem', { name: 'Change to pie-cut' }).click();
    const field = app.page.getByRole('textbox', { name: 'Piece of piece 2' });
    await field.waitFor();
    await app.page.keyboard.type('4');
    expect(await field.inputValue()).toBe('p60x4');
    await press('Enter');
    await expect.poll(() => column(app.page, 'piece')).toEqual(['straight', 'pie cut, 4 pies']);
    await cell(app.page, 0, 2).click();
    await app.page.keyboard.type('b45');
    await press('Enter');
    await expect.poll(sizes).toEqual(['45°', '60°']);
  });
});

test('a note is typed under the row, shown in it, kept, and taken back by undo', async () => {
  const headerId = await benchWith(app, SIX());
  await cell(app.page, 1, 2).click();
  await press('n');
  const note = app.page.getByRole('textbox', { name: 'Note of piece 2' });
  await note.waitFor();
  await app.page.keyboard.type('re-cut after tack');
  await press('Enter');
  await expect.poll(() => cell(app.page, 1, 1).textContent()).toContain('re-cut after tack');
  await expect
    .poll(async () => (await app.backend.must('openHeader', { headerId })).header.primaries[0]?.pieces[1]?.note)
    .toBe('re-cut after tack');
  await press('Control+z');
  await expect.poll(() => cell(app.page, 1, 1).textContent()).toBe('straight');
});
