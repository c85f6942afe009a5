/** The piece grid, the entry line and the chart in a real page, by keyboard and by touch. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Header, Piece } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { inches } from '../../../core/units/length.ts';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { enterLine, entryLine, expectNoFaults, goTo } from '../../e2e/page-parts.ts';
import { adding } from '../../shelf-changes.ts';

let app: AppUnderTest;
const press = (key: string) => app.page.keyboard.press(key);
const type = (text: string) => app.page.keyboard.type(text);

const COMMON = { state: 'tacked', locked: false, note: '' } as const;
const straight = (id: string, value: number): Piece => ({ kind: 'straight', id, length: inches(value), ...COMMON });
const bend = (id: string, angleDeg: number): Piece => ({
  kind: 'bend',
  id,
  clr: inches(3),
  angleDeg,
  clockingDeg: null,
  ...COMMON,
});

function headerNamed(id: string): Header {
  const primary = { tube: null, port: null, inletId: null };
  return {
    ...newHeader({ id, name: id }),
    primaries: [
      { ...primary, id: 'p1', name: '1', pieces: [straight('a', 5), bend('b', 90), straight('c', 4), bend('d', 45)] },
      { ...primary, id: 'p2', name: '2', pieces: [straight('e', 9)] },
    ],
  };
}

let count = 0;
/** A fresh header on the bench, so that no test leans on the one before it. */
async function onBench(): Promise<string> {
  count += 1;
  const { header } = await app.backend.must('importHeader', { header: headerNamed(`grid-${count}`) });
  await goTo(app.page, `#/bench/${header.id}`);
  await app.page.getByRole('button', { name: header.name }).first().waitFor();
  await expect.poll(() => rows()).toHaveLength(4);
  // The bench gives the entry line the caret once it stands; keys before that would go there.
  await expect.poll(() => entryLine(app.page).evaluate((line) => line === document.activeElement)).toBe(true);
  return header.id;
}

async function pieceOnDisk(headerId: string, primary: number, piece: number): Promise<Piece | undefined> {
  return (await app.backend.must('openHeader', { headerId })).header.primaries[primary]?.pieces[piece];
}

async function rows(): Promise<readonly string[]> {
  return await app.page.$$eval('.piece-grid tbody tr[aria-rowindex]', (lines) =>
    lines.map((line) => [...line.children].map((cell) => cell.textContent?.replaceAll('\u2009', ' ')).join('|')),
  );
}

/** Row and column of the cell that has the focus; a field counts as its cell. */
async function focused(): Promise<string> {
  return await app.page.evaluate(() => {
    const cell = document.activeElement?.closest<HTMLElement>('[data-row]');
    return cell === null || cell === undefined ? 'outside' : `${cell.dataset['row']},${cell.dataset['column']}`;
  });
}

async function focusCell(row: number, column: number): Promise<void> {
  await app.page.locator(`[data-row="${row}"][data-column="${column}"]`).focus();
}

const sizes = async () => (await rows()).map((row) => row.split('|')[2]);

beforeAll(async () => {
  app = await launchApp();
});
afterAll(async () => {
  expectNoFaults(app.faults);
  await app.end();
});

describe('the grid', () => {
  test('typing overwrites, Enter goes down, Tab goes right, Escape restores', async () => {
    await onBench();
    await focusCell(0, 2);
    await type('6 1/8');
    await press('Enter');
    await expect.poll(focused).toBe('1,2');
    await type('60');
    await press('Tab');
    await expect.poll(focused).toBe('1,3');
    await press('F2');
    await type('4');
    await press('Escape');
    await expect.poll(focused).toBe('1,3');
    expect((await rows()).slice(0, 2)).toEqual(['1|straight|6 1/8|||6 1/8|◑ tacked', '2|bend|60°|3|–|9 1/4|◑ tacked']);
  });

  test('what cannot be read stays in the cell with its reason beside it, and is taken once mended', async () => {
    await onBench();
    await focusCell(1, 2);
    await type('400');
    await press('Enter');
    const field = app.page.getByRole('textbox', { name: 'Size of piece 2' });
    expect(await field.inputValue()).toBe('400');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    const reasonId = (await field.getAttribute('aria-describedby')) ?? '';
    expect(await app.page.locator(`#${reasonId}`).textContent()).toMatch(/400.*360/);
    await focusCell(0, 1);
    expect(await field.inputValue()).toBe('400');
    await field.fill('30');
    await press('Enter');
    await expect.poll(async () => (await sizes())[1]).toBe('30°');
  });

  test('insert, duplicate, move, change state and delete by key, with the focus staying on the piece', async () => {
    await onBench();
    await focusCell(2, 2);
    await press('Control+d');
    await expect.poll(focused).toBe('3,2');
    await press('Alt+ArrowUp');
    await press('Alt+ArrowUp');
    await expect.poll(focused).toBe('1,2');
    expect(await sizes()).toEqual(['5', '4', '90°', '4', '45°']);
    await press('End');
    await press('p');
    await expect.poll(async () => (await rows())[1]).toMatch(/planned$/);
    await press('Control+Delete');
    await expect.poll(sizes).toEqual(['5', '90°', '4', '45°']);
    await press('Insert');
    await expect.poll(() => entryLine(app.page).evaluate((line) => line === document.activeElement)).toBe(true);
    await enterLine(app.page, '1');
    await enterLine(app.page, '2');
    await expect.poll(sizes).toEqual(['5', '1', '2', '90°', '4', '45°']);
  });

  test('after undo the keys act on the cell that is shown in hand', async () => {
    await onBench();
    await focusCell(1, 2);
    await press('Control+Delete');
    await expect.poll(sizes).toEqual(['5', '4', '45°']);
    await press('Control+z');
    await expect.poll(sizes).toEqual(['5', '90°', '4', '45°']);
    await expect.poll(focused).toBe('1,2');
    await press('Control+Delete');
    await expect.poll(sizes).toEqual(['5', '4', '45°']);
  });

  test('rows go out as tab-separated text and come in again, also bare ones from a spreadsheet', async () => {
    await onBench();
    await focusCell(0, 2);
    await press('Shift+ArrowDown');
    const copied = await app.page.evaluate(() => {
      const clipboardData = new DataTransfer();
      document.activeElement?.dispatchEvent(
        new ClipboardEvent('copy', { clipboardData, bubbles: true, cancelable: true }),
      );
      return clipboardData.getData('text/plain');
    });
    expect(copied.split('\n')).toHaveLength(4);
    const paste = (text: string) =>
      app.page.evaluate((pasted) => {
        const clipboardData = new DataTransfer();
        clipboardData.setData('text/plain', pasted);
        document.activeElement?.dispatchEvent(
          new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
        );
      }, text);
    await focusCell(3, 2);
    await paste(copied);
    await expect.poll(sizes).toEqual(['5', '90°', '4', '45°', '5', '90°']);
    await paste('straight\t1 1/2\nbend\t30\n');
    await expect.poll(async () => (await sizes()).length).toBe(8);
    await paste('straight\t1 1/2\nstraight\tnonsense\n');
    await app.page.getByText(/Nothing was pasted\. Row 2/).waitFor();
    expect(await rows()).toHaveLength(8);
  });

  test('the buttons do the same without a keyboard', async () => {
    await onBench();
    await app.page.locator('[data-row="1"][data-column="1"]').click();
    const button = (name: string) => app.page.getByRole('toolbar').getByRole('button', { name, exact: true });
    await button('Down').click();
    await expect.poll(sizes).toEqual(['5', '4', '90°', '45°']);
    await button('State of the pieces selected').click();
    await app.page.getByRole('menuitem', { name: /welded/ }).click();
    await expect.poll(async () => (await rows())[2]).toMatch(/welded$/);
    await button('Delete').click();
    await expect.poll(sizes).toEqual(['5', '4', '45°']);
  });
});

describe('half-typed cells', () => {
  test('are offered again in their cell after a reload', async () => {
    const headerId = await onBench();
    await focusCell(2, 2);
    await type('7 3');
    await expect
      .poll(async () => (await app.backend.must('openHeader', { headerId })).draft)
      .toEqual({ field: 'cell:c:size', text: '7 3' });
    await app.page.reload();
    const field = app.page.getByRole('textbox', { name: 'Size of piece 3' });
    await field.waitFor();
    expect(await field.inputValue()).toBe('7 3');
    await type('/4');
    await press('Enter');
    await expect.poll(async () => (await sizes())[2]).toBe('7 3/4');
  });

  test('of a piece that is gone leave the caret to the entry line', async () => {
    const headerId = await onBench();
    await app.backend.must('saveDraft', { headerId, draft: { field: 'cell:gone:size', text: '7 3' } });
    await app.page.reload();
    await expect.poll(() => entryLine(app.page).evaluate((line) => line === document.activeElement)).toBe(true);
    expect(await entryLine(app.page).inputValue()).toBe('');
  });

  test('are taken when another primary is gone to', async () => {
    const headerId = await onBench();
    await focusCell(2, 2);
    await type('7');
    await press('Alt+2');
    await app.page.getByRole('heading', { name: 'Primary 2' }).waitFor();
    await expect.poll(() => pieceOnDisk(headerId, 0, 2)).toMatchObject({ length: inches(7) });
  });

  test('are taken also where a row above holds text that cannot be read', async () => {
    const headerId = await onBench();
    await focusCell(1, 2);
    await type('400');
    await press('Enter');
    await focusCell(2, 2);
    await type('7');
    await press('Alt+2');
    await app.page.getByRole('heading', { name: 'Primary 2' }).waitFor();
    await expect.poll(() => pieceOnDisk(headerId, 0, 2)).toMatchObject({ length: inches(7) });
    await press('Alt+1');
    const unread = app.page.getByRole('textbox', { name: 'Size of piece 2' });
    await unread.waitFor();
    expect(await unread.inputValue()).toBe('400');
  });
});

test('from the shelf one comes back to the primary, the panel and the half-typed line that one left', async () => {
  const headerId = await onBench();
  await press('Alt+2');
  const figures = app.page.getByRole('button', { name: /^Tables/ });
  await figures.click();
  await entryLine(app.page).focus();
  await type('5 1/');
  await goTo(app.page, '#/shelf');
  await goTo(app.page, `#/bench/${headerId}`);
  await app.page.getByRole('heading', { name: 'Primary 2' }).waitFor();
  expect(await entryLine(app.page).inputValue()).toBe('5 1/');
  expect(await figures.getAttribute('aria-expanded')).toBe('true');
  await type('2');
  await press('Enter');
  await expect.poll(() => pieceOnDisk(headerId, 1, 1)).toMatchObject({ length: inches(5.5) });
  expect(await entryLine(app.page).inputValue()).toBe('');
});

test('text that could not be read waits with its reason while another primary or screen is shown', async () => {
  const headerId = await onBench();
  await focusCell(1, 2);
  await type('400');
  await press('Alt+2');
  await app.page.getByRole('heading', { name: 'Primary 2' }).waitFor();
  await goTo(app.page, '#/shelf');
  await goTo(app.page, `#/bench/${headerId}`);
  await app.page.getByRole('heading', { name: 'Primary 2' }).waitFor();
  await press('Alt+1');
  const field = app.page.getByRole('textbox', { name: 'Size of piece 2' });
  await field.waitFor();
  expect(await field.inputValue()).toBe('400');
  expect(await app.page.locator('.problem-row').textContent()).toMatch(/400.*360/);
  // It does not take the caret from the line.
  await expect.poll(() => entryLine(app.page).evaluate((line) => line === document.activeElement)).toBe(true);
  await field.fill('40');
  await press('Enter');
  await expect.poll(async () => (await sizes())[1]).toBe('40°');
  await press('Alt+2');
  await app.page.getByRole('heading', { name: 'Primary 2' }).waitFor();
  await press('Alt+1');
  await expect.poll(() => rows()).toHaveLength(4);
  expect(await field.count()).toBe(0);
});

describe('a finished header', () => {
  test('can be looked at but not typed into', async () => {
    const headerId = await onBench();
    const { revision } = await app.backend.must('openHeader', { headerId });
    const steps = [{ action: 'do' as const, stepId: `finish-${headerId}`, edit: { kind: 'finishHeader' as const } }];
    await app.backend.must('commitSteps', { headerId, baseRevision: revision, steps });
    await app.page.reload();
    await app.page.getByText('Finished: it does not change').waitFor();
    expect(await entryLine(app.page).count()).toBe(0);
    await focusCell(0, 2);
    await type('9');
    await press('Control+Delete');
    expect(await sizes()).toEqual(['5', '90°', '4', '45°']);
  });
});

describe('the entry line', () => {
  test('offers the CLRs of the shelf, and a bend that the shelf lacks says so in words', async () => {
    const tube = { material: '304 stainless', od: inches(1.75), wall: inches(0.065) };
    const legs = [inches(4), inches(4)] as [ReturnType<typeof inches>, ReturnType<typeof inches>];
    const item = (id: string, clrIn: number) =>
      ({ kind: 'bend', id, ...tube, clr: inches(clrIn), angleDeg: 60, legs, count: 3, note: '' }) as const;
    await app.backend.must('changeShelf', adding(item('two-five', 2.5), item('three', 3)));
    await app.page.reload();
    await onBench();
    await expect.poll(async () => (await rows())[1]).toContain('not on shelf');
    expect((await rows())[3]).not.toContain('not on shelf');
    await entryLine(app.page).focus();
    await type('b30 r');
    await app.page.getByRole('option', { name: /r2 1\/2/ }).waitFor();
    await press('ArrowDown');
    await press('Enter');
    await press('Enter');
    await expect.poll(async () => (await rows()).at(-1)).toMatch(/^5\|bend\|30°\|2 1\/2\|/);
  });

  test('moves on to the next primary without leaving the line', async () => {
    await onBench();
    await entryLine(app.page).focus();
    await press('Control+ArrowDown');
    await app.page.getByRole('heading', { name: 'Primary 2' }).waitFor();
    await enterLine(app.page, 'b90');
    await expect.poll(sizes).toEqual(['9', '90°']);
    await press('Alt+1');
    await app.page.getByRole('heading', { name: 'Primary 1' }).waitFor();
  });

  test('the keypad enters a bend by touch alone', async () => {
    await onBench();
    await app.page.getByRole('button', { name: 'Keypad', exact: true }).click();
    const key = (name: string) => app.page.locator('.keypad').getByRole('button', { name, exact: true });
    await key('Bend: what is typed is an angle').click();
    await key('3').click();
    await key('5').click();
    await key('Delete the last character').click();
    await key('0').click();
    await key('Enter').click();
    await expect.poll(async () => (await sizes()).at(-1)).toBe('30°');
  });
});

describe('beside the grid', () => {
  test('an angle taken by tape goes into the row', async () => {
    await onBench();
    await focusCell(1, 2);
    await press('Alt+t');
    // Outside of CLR 3 and OD 1 3/4: 3.875 in; a third of a turn is 8.1158 in.
    await app.page.getByLabel(/Tape reads/).fill('8.1158');
    await press('Enter');
    await expect.poll(async () => (await sizes())[1]).toBe('120°');
  });

  test('the chart is worked by arrow keys and reads out its pieces', async () => {
    await onBench();
    const first = app.page.getByRole('option', { name: /^Primary 1/ });
    await first.focus();
    await press('ArrowRight');
    await press('ArrowRight');
    await expect.poll(() => app.page.locator('.board-readout').textContent()).toMatch(/Piece 2: bend 90°, CLR 3"/);
    await press('ArrowDown');
    await expect.poll(() => app.page.getByRole('option', { selected: true }).textContent()).toMatch(/Primary 2/);
  });

  test('a unit is switched without changing a stored value', async () => {
    const headerId = await onBench();
    await app.page.getByRole('button', { name: 'Settings' }).click();
    await app.page.getByRole('combobox', { name: 'Lengths shown in' }).selectOption('mm1');
    await expect.poll(sizes).toEqual(['127.0', '90°', '101.6', '45°']);
    await expect
      .poll(async () => (await app.backend.must('openHeader', { headerId })).header.settings.display.kind)
      .toBe('mm');
    const { header } = await app.backend.must('openHeader', { headerId });
    expect(header.primaries).toEqual(headerNamed(headerId).primaries);
  });
});
