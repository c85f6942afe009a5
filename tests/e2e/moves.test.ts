/** Moves in the page as it is built: listed, looked at, applied, taken back, and never in the way of typing. */

import type { Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Header, Piece } from '../../core/header/header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { command, enterLine, entryLine, expectNoFaults, openBench, openDemo, openPanel } from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => await app.end());
beforeEach(async () => {
  headerId = await openDemo(app);
});
afterEach(() => expectNoFaults(app.faults));

async function stored(): Promise<Header> {
  return (await app.backend.must('openHeader', { headerId })).header;
}

async function changed(change: (header: Header) => Header): Promise<void> {
  const made = await app.backend.must('importHeader', { header: { ...change(await stored()), id: 'changed' } });
  headerId = made.header.id;
  await openBench(app.page, headerId);
}

/** A busy machine may not come through in the time that a search has: then it is told to search on. */
async function searchedThrough(page: Page): Promise<void> {
  const found = page.locator('.moves-found[data-took-ms]');
  const searchOn = page.getByRole('button', { name: 'Search on' });
  for (;;) {
    await found.or(searchOn).first().waitFor();
    if ((await searchOn.count()) === 0) return;
    await searchOn.click();
    await searchOn.waitFor({ state: 'detached' });
  }
}

async function openMoves(page: Page, primary = 3): Promise<Locator> {
  await page.keyboard.press(`Alt+${primary}`);
  await openPanel(page, 'Moves');
  await searchedThrough(page);
  return page.getByRole('grid', { name: `Moves for Primary ${primary}` });
}

/** Those of the table, without its head. */
const rows = (list: Locator) => list.locator('.proposal');

const verdict = (page: Page) => page.locator('.primary-verdict').textContent();
const tookMs = async (page: Page) => Number(await page.locator('.moves-found').getAttribute('data-took-ms'));

describe('a move', () => {
  test('is listed, looked at in the chart, applied by Enter as one step, and taken back', async () => {
    const { page } = app;
    const before = await stored();
    const list = await openMoves(page);
    await list.waitFor();
    expect(await verdict(page)).toContain('3/16" short');
    await expect.poll(() => rows(list).count()).toBeGreaterThan(3);
    await rows(list).first().focus();
    await page.locator('[data-primary="primary-3"] .strip-after').waitFor();
    await page.getByText('then at target').waitFor();
    await page.getByRole('row', { name: /^7 straight.*replaced, freed/ }).waitFor();
    // Old and new stand in the cell, the old one struck through.
    const size = page.locator('[data-row="6"][data-column="2"]');
    expect(await size.locator('del').textContent()).toBe('10 1/2');
    expect(await size.locator('ins').textContent()).toBe('10 11/16');
    expect(await stored()).toEqual(before);
    await page.keyboard.press('ArrowDown');
    const second = await rows(list).nth(1).textContent();
    expect(second).not.toEqual(await rows(list).first().textContent());
    await expect.poll(() => list.getByRole('row', { selected: true }).textContent()).toBe(second);
    await page.keyboard.press('Space');
    await expect.poll(() => page.locator('.strip-after').count()).toBe(0);
    await page.getByRole('button', { name: 'Show after' }).waitFor();
    await page.keyboard.press('Space');
    await page.locator('.strip-after').waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.strip-after').count()).toBe(0);
    await page.keyboard.press('Home');
    await page.keyboard.press('Enter');
    await expect.poll(() => verdict(page)).toContain('at target');
    await expect
      .poll(async () => (await stored()).primaries[2]?.pieces.at(-1))
      .toMatchObject({
        length: { value: 10.6875, unit: 'in' },
      });
    await page.getByText('This primary is OK. Nothing to change.').waitFor();
    // Applied is done: no piece goes on being marked.
    expect(await page.getByRole('row', { name: /freed/ }).count()).toBe(0);
    await page.keyboard.press('Control+z');
    await expect.poll(() => verdict(page)).toContain('3/16" short');
    await expect.poll(stored).toEqual(before);
  });

  test('is looked at on board and stage at once, with the tube as it is dashed', async () => {
    const { page } = app;
    await page.locator('.view-picture').waitFor();
    const list = await openMoves(page);
    // The first only makes a straight longer; any other turns something, which a dashed line shows best.
    await rows(list).nth(1).click();
    await expect.poll(() => page.locator('.view-picture').getAttribute('data-before')).toBe('1');
    await page.getByText('Dashed: as it is now').waitFor();
    await page.locator('.strip-after').waitFor();
  });

  test('for all primaries brings every one into the band by the button, as one step', async () => {
    const { page } = app;
    const before = await stored();
    await command(page, 'Moves');
    await page.getByRole('tab', { name: 'Fix all' }).click();
    await page.getByRole('row', { name: /^Keep the target/ }).click();
    // In every row that changes, whichever is in hand.
    await expect.poll(() => page.locator('.board-row .bar-after').count()).toBe(2);
    await page.getByRole('button', { name: 'Apply', exact: true }).click();
    await page.getByText('Every primary is OK.').waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(stored).toEqual(before);
  });
});

describe('a lock', () => {
  test('goes on and off by L, says so, and undo takes it off', async () => {
    const { page } = app;
    await page.keyboard.press('Alt+3');
    await page.locator('[data-row="6"][data-column="2"]').focus();
    await page.keyboard.press('l');
    await page.getByRole('row', { name: /^7 straight.*locked/ }).waitFor();
    await expect.poll(async () => (await stored()).primaries[2]?.pieces[6]?.locked).toBe(true);
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await stored()).primaries[2]?.pieces[6]?.locked).toBe(false);
    await openPanel(page, 'Moves');
    await page.getByRole('button', { name: 'Lock piece 7' }).click();
    await page.getByRole('button', { name: 'Unlock piece 7' }).waitFor();
  });

  test('on every piece leaves no move, and the button that takes off what must go finds one', async () => {
    const { page } = app;
    await changed((header) => ({
      ...header,
      primaries: header.primaries.map((primary) => ({
        ...primary,
        pieces: primary.pieces.map((piece) => ({ ...piece, locked: true })),
      })),
    }));
    const list = await openMoves(page);
    await page.getByText('Every piece is locked or welded.').waitFor();
    await page
      .getByRole('button', { name: /^Unlock piece/ })
      .last()
      .click();
    await list.waitFor();
  });
});

test('options are kept to: with no joint to be made, every move makes none', async () => {
  const { page } = app;
  // Primary 2 is long: its last straight is made shorter where it ends in the collector, which opens no joint.
  const list = await openMoves(page, 2);
  await list.waitFor();
  await page.getByRole('tab', { name: 'Limits' }).click();
  await page.getByLabel('Joints to make, at most').selectOption('0');
  await page.getByRole('tab', { name: 'Primary 2' }).click();
  await list.waitFor();
  const joints = await list.locator('.proposal [data-column="joints"]').allInnerTexts();
  expect(joints.length).toBeGreaterThan(0);
  expect(joints.filter((text) => text !== '0')).toEqual([]);
});

/** Eight primaries of twenty pieces, locked but for two: the search goes through all that could be let go. */
function hard(header: Header): Header {
  const [first] = header.primaries;
  if (first === undefined) throw new Error('the demo has no primary');
  const pieceOf = (primary: number, index: number): Piece => {
    const common = { id: `p-${primary}-${index}`, state: 'tacked', note: '', locked: index > 16 } as const;
    const length = { value: 1 + ((index * 7 + primary * 3) % 5) / 4 + primary / 2, unit: 'in' } as const;
    if (index % 2 === 0) return { kind: 'straight', ...common, length };
    const clr = { value: 3, unit: 'in' } as const;
    return { kind: 'bend', ...common, clr, angleDeg: 20 + ((index * 13) % 50), clockingDeg: (index * 77) % 180 };
  };
  return {
    ...header,
    primaries: Array.from({ length: 8 }, (_, primary) => ({
      ...first,
      id: `primary-${primary + 1}`,
      name: String(primary + 1),
      inletId: null,
      pieces: Array.from({ length: 20 }, (_, index) => pieceOf(primary, index)),
    })),
  };
}

/** Counts anew from now on. */
async function watchLongTasks(page: Page): Promise<void> {
  await page.evaluate(() => {
    const told = { longest: 0 };
    Object.assign(globalThis, { told });
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) told.longest = Math.max(told.longest, duration);
    }).observe({ type: 'longtask' });
  });
}

/** On a slow page the time that a search has may pass meanwhile; then it is told to search on. */
async function underWay(page: Page): Promise<void> {
  const searchOn = page.getByRole('button', { name: 'Search on' });
  await page
    .getByText(/Searching … \d+\.\d s/)
    .or(searchOn)
    .first()
    .waitFor();
  if ((await searchOn.count()) > 0) await searchOn.click();
  await page.getByText(/Searching … \d+\.\d s/).waitFor();
}

/** Presses Stop while there is something to stop. */
async function stop(page: Page): Promise<void> {
  for (let isPressed = false; !isPressed; ) {
    await underWay(page);
    isPressed = await page
      .getByRole('button', { name: 'Stop' })
      .click({ timeout: 5_000 })
      .then(
        () => true,
        () => false,
      );
  }
}

const longestTaskMs = (page: Page) => page.evaluate<number>('told.longest');

describe('a long search', () => {
  test('says how long, lets the person type, and ends when the header changes or Stop is pressed', async () => {
    const { page } = app;
    await changed(hard);
    await watchLongTasks(page);
    await entryLine(page).focus();
    await page.keyboard.type('2 1/4; b45 180');
    const alone = await longestTaskMs(page);
    await entryLine(page).fill('');
    await openPanel(page, 'Moves');
    await page.getByRole('tab', { name: 'Fix all' }).click();
    await page.getByText(/Searching … \d+\.\d s/).waitFor();
    await watchLongTasks(page);
    await entryLine(page).focus();
    await page.keyboard.type('2 1/4; b45 180');
    expect(await entryLine(page).inputValue()).toBe('2 1/4; b45 180');
    // Typing has ended no search.
    await underWay(page);
    const beside = await longestTaskMs(page);
    console.log(`longest task while typing: ${alone.toFixed(0)} ms alone, ${beside.toFixed(0)} ms beside a search`);
    // The search has a core of its own at best, half of the page's at worst; on the page's thread it would take seconds.
    expect(beside).toBeLessThan(1000 + 5 * alone);
    await stop(page);
    await page.getByText('Stopped at the time limit.').waitFor();
    await underWay(page);
  });

  test('gives way to an edit, and the answer is for the header as it is now', async () => {
    const { page } = app;
    const list = await openMoves(page);
    await list.waitFor();
    const first = await tookMs(page);
    await page.locator('[data-row="0"][data-column="2"]').focus();
    for (const text of ['8 1/8', '8', '7 7/8']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
      await page.keyboard.press('ArrowUp');
    }
    await page
      .getByRole('row', { name: /^Lengthen straight 1 by/ })
      .first()
      .waitFor();
    console.log(`moves answered after ${first} ms at first, after ${await tookMs(page)} ms on the worker in wait`);
    const before = await rows(list).first().textContent();
    await entryLine(page).focus();
    await enterLine(page, '1/2');
    // Half an inch longer, and the answer is another one.
    await expect.poll(() => rows(list).first().textContent()).not.toBe(before);
  });
});

test('a window without workers says so', async () => {
  const page = await app.context.newPage();
  await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'Worker'));
  await page.goto(app.host.address);
  await page.locator('#screen').waitFor();
  await page.evaluate((id) => {
    location.hash = `#/bench/${id}`;
  }, headerId);
  await entryLine(page).waitFor();
  await openPanel(page, 'Moves');
  await page.getByText('Moves cannot run in this browser.').waitFor();
  await page.close();
});
