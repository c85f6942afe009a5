/** The entry line in a real page: what it reads back, what is pasted into it, its keypad, and what comes after an undo. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { enterLine, entryLine, expectNoFaults } from '../../e2e/page-parts.ts';
import { benchWith, bend, cell, column, entryHasFocus, pasteText, straight } from './rows-in-hand.ts';

let app: AppUnderTest;
const press = (key: string) => app.page.keyboard.press(key);
const type = (text: string) => app.page.keyboard.type(text);
const sizes = () => column(app.page, 'size');
const plain = (text: string | null) => (text ?? '').replaceAll('\u2009', ' ');
const does = async () => plain(await app.page.locator('.read-back-does').textContent());
const note = async () => plain(await app.page.locator('.read-back-note').textContent());

beforeAll(async () => {
  app = await launchApp();
});
afterAll(async () => {
  expectNoFaults(app.faults);
  await app.end();
});

describe('before Enter the line says what it will do', () => {
  test('the piece, its clocking, the total and the verdict, and Enter does just that', async () => {
    // The second primary sets the target of 20 in; 15 in and a quarter turn of CLR 3 make 19.712, rounded 19 11/16.
    await benchWith(app, [straight('a', 15)], [straight('b', 20)]);
    await type('b90 180');
    await expect.poll(does).toMatch(/^bend 90°, clocked 180°; total 19 11\/16.*, 5\/16.* short$/);
    const total = /total ([\d /]+)/.exec(await does())?.[1]?.trim() ?? 'none';
    await press('Enter');
    await expect.poll(sizes).toEqual(['15', '90°']);
    expect(plain(await app.page.locator('.primary-length').textContent())).toContain(total);
  });

  test('and it is spoken politely, the latest at most once a second', async () => {
    await benchWith(app, [straight('a', 15)]);
    await type('b30');
    await expect.poll(() => app.page.locator('.entry [role="status"]').textContent()).toMatch(/^bend 30°, not clocked/);
  });

  test('what is odd is said and does not block; nothing at all is refused', async () => {
    await benchWith(app, [straight('a', 1)]);
    for (const [line, word] of [
      ['b360', /U-bend/],
      ['b90/180', /fraction/],
      ['7 11/61', /no tape/],
      ['b60 r40', /diameters/],
      ['40000mm', /10 ft/],
    ] as const) {
      await type(line);
      await expect.poll(note).toMatch(word);
      await press('Enter');
      await expect.poll(() => entryLine(app.page).inputValue()).toBe('');
    }
    expect(await sizes()).toHaveLength(6);
    await enterLine(app.page, '0');
    await app.page
      .getByRole('alert')
      .getByText(/straight of 0/)
      .waitFor();
    expect(await sizes()).toHaveLength(6);
    await press('Escape');
  });

  test('the hints stay in reach, and the field stays where it is', async () => {
    await benchWith(app, [straight('a', 1)]);
    const top = async () => (await entryLine(app.page).boundingBox())?.y;
    const before = await top();
    expect(await does()).toContain('b90 bend');
    await type('b45');
    await expect.poll(does).toMatch(/^bend 45°/);
    expect(await note()).toContain('clocking, CLR');
    expect(await top()).toBe(before);
    await app.page.getByRole('button', { name: 'How to type' }).click();
    await app.page.getByRole('dialog', { name: 'How to type a piece' }).getByText('p90x5 180').waitFor();
    await press('Escape');
    expect(await entryLine(app.page).inputValue()).toBe('b45');
  });
});

describe('pasting', () => {
  test('rows of a spreadsheet into an empty primary make its pieces, and what was typed stays', async () => {
    await benchWith(app, [], [straight('b', 20)]);
    await type('2 1');
    await pasteText(app.page, 'kind\tlength\tangle\nstraight\t2 1/2\t\nbend\t\t45\n');
    await expect.poll(sizes).toEqual(['2 1/2', '45°']);
    expect(await entryLine(app.page).inputValue()).toBe('2 1');
    await pasteText(app.page, '1\nb30\nnonsense\n');
    await app.page.getByRole('alert').getByText(/Row 3/).waitFor();
    expect(await sizes()).toHaveLength(2);
  });

  test('one value onto a size sets it, or stands there with what is wrong with it', async () => {
    await benchWith(app, [straight('a', 1), straight('b', 2)]);
    await cell(app.page, 0, 2).click();
    await pasteText(app.page, '3 1/4\n');
    await expect.poll(sizes).toEqual(['3 1/4', '2']);
    await pasteText(app.page, 'three');
    const field = app.page.getByRole('textbox', { name: 'Size of piece 1' });
    await field.waitFor();
    expect(await field.inputValue()).toBe('three');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
  });
});

test('insert, type, undo and type again comes to the same place', async () => {
  await benchWith(app, [straight('a', 1), straight('b', 2), straight('c', 3)]);
  await cell(app.page, 1, 2).click();
  await press('Insert');
  await enterLine(app.page, '9');
  await expect.poll(sizes).toEqual(['1', '9', '2', '3']);
  await press('Control+z');
  await expect.poll(sizes).toEqual(['1', '2', '3']);
  await enterLine(app.page, '8; 7');
  await expect.poll(sizes).toEqual(['1', '8', '7', '2', '3']);
  await press('Control+z');
  await enterLine(app.page, '6');
  await expect.poll(sizes).toEqual(['1', '6', '2', '3']);
});

test('what is typed right after Ctrl+E is all in the line, and none of it in the grid', async () => {
  await benchWith(app, [straight('a', 1), straight('b', 2)]);
  for (const text of ['12 3/4', 'b90 180', '7', '=', 'b45 90 r4', '1.5', '2-1/2', 'p90x5']) {
    await cell(app.page, 0, 2).click();
    await press('Control+e');
    await type(text);
    expect(await entryLine(app.page).inputValue()).toBe(text);
    await press('Escape');
  }
  expect(await sizes()).toEqual(['1', '2']);
});

describe('the keypad', () => {
  const key = (name: string) => app.page.locator('.keypad').getByRole('button', { name, exact: true });
  const showKeypad = async () => {
    if ((await app.page.locator('.keypad').count()) > 0) return;
    await app.page.getByRole('button', { name: 'Keypad', exact: true }).click();
    await app.page.locator('.keypad').waitFor();
    await entryLine(app.page).focus();
  };

  test('enters everything that the line takes: feet, millimetres, pie cuts, the piece before', async () => {
    await benchWith(app, [straight('a', 1)]);
    await showKeypad();
    const lines: readonly (readonly string[])[] = [
      ['5', '7', 'mm, millimetres'],
      ['p, pie cut', '9', '0', 'x, pies', '5', 'space', '4', '5'],
      ['equals, the piece before once more'],
      ['1', 'feet mark', '2', 'inch mark'],
    ];
    for (const line of lines) {
      for (const name of line) await key(name).click();
      await key('Enter').click();
      await expect.poll(() => entryLine(app.page).inputValue()).toBe('');
    }
    await expect.poll(sizes).toEqual(['1', '≈2 1/4', '90°', '90°', '14']);
  });

  test('types into the cell in hand, and goes on to the next with Enter', async () => {
    await benchWith(app, [straight('a', 1), bend('b', 30)]);
    await showKeypad();
    await cell(app.page, 0, 2).click();
    await key('9').click();
    await key('space').click();
    await key('1').click();
    await key('slash').click();
    await key('2').click();
    await key('Enter').click();
    await expect.poll(sizes).toEqual(['9 1/2', '30°']);
    await key('4').click();
    await key('5').click();
    await key('Delete the last character').click();
    await key('Enter').click();
    await expect.poll(sizes).toEqual(['9 1/2', '4°']);
    expect(await entryLine(app.page).inputValue()).toBe('');
    await expect.poll(() => entryHasFocus(app.page)).toBe(true);
    await cell(app.page, 0, 2).click();
    await key('Bend: what is typed is an angle').click();
    await key('6').click();
    await key('0').click();
    await key('Enter').click();
    await expect.poll(sizes).toEqual(['60°', '4°']);
  });
});

describe('a size that the display would put off', () => {
  test('is shown as it is cut, and says so', async () => {
    // 4 29/32 rounds to 4 15/16 in the sixteenths shown, a 32nd too long.
    await benchWith(app, [straight('a', 4 + 29 / 32), straight('b', 4 + 15 / 16), straight('c', 4.9)]);
    await expect.poll(sizes).toEqual(['4 29/32', '4 15/16', '≈4 29/32']);
    expect(await cell(app.page, 0, 2).locator('[title]').getAttribute('title')).toMatch(/finer/);
    expect(await cell(app.page, 1, 2).locator('[title]').count()).toBe(0);
    expect(await cell(app.page, 2, 2).locator('[title]').getAttribute('title')).toContain('4.9"');
  });
});

test('where the language writes a decimal comma it is read, and said; where it does not, it is refused', async () => {
  await benchWith(app, [straight('a', 1)]);
  await enterLine(app.page, '2,5');
  await app.page.getByRole('alert').getByText(/comma/).waitFor();
  expect(await sizes()).toEqual(['1']);
  const german = await launchApp({ browser: app.browser, context: { locale: 'de-DE' } });
  try {
    await benchWith(german, [straight('a', 1)]);
    await german.page.keyboard.type('2,5; b22,5');
    const said = german.page.locator('.read-back-note');
    await expect.poll(() => said.textContent()).toContain('2,5 is 2.5');
    await german.page.keyboard.press('Enter');
    await cell(german.page, 0, 2).click();
    await german.page.keyboard.type('3,25');
    await german.page.keyboard.press('Enter');
    await expect.poll(() => column(german.page, 'size')).toEqual(['3 1/4', '2 1/2', '22.5°']);
  } finally {
    await german.end();
  }
});

describe('a cell that cannot be read', () => {
  test.each([
    [1366, 768, 'desk'],
    [1024, 768, 'bench'],
    [700, 600, 'desk'],
  ] as const)(
    'is in sight with its message at %i x %i in %s size, also from another place',
    async (width, height, density) => {
      await app.backend.must('savePreferences', { preferences: { theme: 'light', density } });
      await app.page.setViewportSize({ width, height });
      await app.page.reload();
      await benchWith(
        app,
        Array.from({ length: 20 }, (_none, index) => straight(`s${index}`, index + 1)),
        [straight('z', 3)],
      );
      const inSight = async () => {
        const field = await app.page.getByRole('textbox', { name: /^Size of piece 3$/ }).boundingBox();
        const reason = await app.page.locator('.problem-row .field-problem').boundingBox();
        const frame = await app.page.locator('.grid-frame').boundingBox();
        if (field === null || reason === null || frame === null) return 'missing';
        const [low, high] = [Math.max(0, frame.y), Math.min(height, frame.y + frame.height)];
        const isIn = field.y >= low - 1 && reason.y + reason.height <= high + 1;
        return isIn ? 'in sight' : `field ${field.y}, reason to ${reason.y + reason.height}, frame ${low} to ${high}`;
      };
      await cell(app.page, 2, 2).focus();
      await type('4 1/z');
      await press('Enter');
      await expect.poll(inSight).toBe('in sight');
      expect(await app.page.locator('.problem-row').textContent()).toContain('4 1/2.');
      await press('Escape');
      // Left by going far away, it is taken or refused there.
      await cell(app.page, 2, 2).focus();
      await type('4 1/z');
      await cell(app.page, 19, 2).focus();
      await expect.poll(inSight).toBe('in sight');
    },
  );
});

test.each(['desk', 'bench'] as const)(
  'the entry line stays where it is in %s size, whatever is said under it, and all of that can be read',
  async (density) => {
    await app.backend.must('savePreferences', { preferences: { theme: 'light', density } });
    await app.page.setViewportSize({ width: 1366, height: 768 });
    await app.page.reload();
    await benchWith(app, [straight('a', 1)]);
    const { page } = app;
    const field = page.getByRole('combobox', { name: 'Next piece' });
    const under = page.locator('.entry-under');
    const place = async () => (await field.boundingBox())?.y;
    const empty = await place();
    const hidden = () => under.evaluate((box) => box.scrollHeight - box.clientHeight);
    for (const [text, said] of [
      ['130; b185', /longer than 10 ft.*more than a U-bend/],
      ['130; b185; b0.5; 7 11/61', /on no tape/],
      [`${'b'.repeat(90)}`, /./],
    ] as const) {
      await field.fill(text);
      await expect.poll(() => under.textContent()).toMatch(said);
      expect(await place()).toBe(empty);
    }
    await field.fill('130; b185');
    await expect.poll(() => under.textContent()).toMatch(/U-bend/);
    expect(await hidden()).toBeLessThanOrEqual(0);
    await field.fill('3 5/');
    await press('Enter');
    await page.getByRole('alert').waitFor();
    expect(await place()).toBe(empty);
    expect(await hidden()).toBeLessThanOrEqual(0);
    await field.fill('');
  },
);

test('typing in the line or in a cell draws no other row', async () => {
  await app.backend.must('savePreferences', { preferences: { theme: 'light', density: 'desk' } });
  await app.page.setViewportSize({ width: 1366, height: 768 });
  await app.page.reload();
  await benchWith(app, [straight('a', 1), bend('b', 30), straight('c', 2)]);
  await app.page.evaluate(() => {
    const changed = new Set<number>();
    Object.assign(globalThis, { changedRows: changed });
    document.querySelectorAll('.piece-grid tbody tr').forEach((row, index) => {
      new MutationObserver(() => changed.add(index)).observe(row, {
        attributes: true,
        characterData: true,
        childList: true,
        subtree: true,
      });
    });
  });
  const changed = () => app.page.evaluate<number[]>('[...changedRows]');
  await type('b45 90 r4');
  expect(await changed()).toEqual([]);
  // The row that was the stop of the Tab key hands it over.
  await cell(app.page, 1, 2).click();
  await app.page.evaluate('changedRows.clear()');
  await type('60');
  await press('Escape');
  await expect.poll(changed).toEqual([1]);
});
